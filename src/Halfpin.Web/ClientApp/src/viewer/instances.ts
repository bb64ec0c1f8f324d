import {
  BufferAttribute, BufferGeometry, Color, DynamicDrawUsage, Group, InstancedBufferAttribute, InstancedMesh, Matrix4, Vector3, type ShaderMaterial,
} from "three";
import { turns } from "./ink";
import { fillMaterial, outlineMaterial, type Shared } from "./paper";
import type { Vec } from "./scene";

const along = new Vector3(), across = new Vector3(), third = new Vector3(), middle = new Vector3();

/** Many bodies of one shape, each with its place, fill and outline, changed in place. */
export class Instances {
  readonly group = new Group();
  private readonly fill: ShaderMaterial;
  private readonly outline: ShaderMaterial;
  private bodies!: InstancedMesh;
  private outlines!: InstancedMesh;
  private ink!: InstancedBufferAttribute;
  private capacity = 0;
  /** Where the body placed last stands. */
  readonly matrix = new Matrix4();

  constructor(shared: Shared, private readonly shape: BufferGeometry, tone = 0.14) {
    this.fill = fillMaterial(shared, new Color(), new Color(0, 0, 0), { tone });
    this.outline = outlineMaterial(shared, new Color(), 1);
    this.reserve(8);
  }

  set count(count: number) {
    if (count > this.capacity) this.reserve(Math.max(count, this.capacity * 2));
    this.bodies.count = this.outlines.count = count;
  }

  /** A body whose z axis runs from one point to another and whose x axis lies nearest to a given direction; widths across and along that. */
  place(i: number, from: Vec, to: Vec, beyondMm: number, widthMm: number, depthMm: number, preferred: Vec | null): void {
    along.set(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
    let length = along.length();
    if (length < 1e-6) along.set(0, 0, 1), (length = 0);
    else along.divideScalar(length);
    if (preferred) across.set(preferred[0], preferred[1], preferred[2]);
    else across.set(0, 0, 1);
    across.addScaledVector(along, -across.dot(along));
    if (across.lengthSq() < 1e-6) across.set(1, 0, 0).addScaledVector(along, -along.x);
    if (across.lengthSq() < 1e-6) across.set(0, 1, 0);
    across.normalize();
    third.crossVectors(along, across);
    middle.set((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2);
    this.matrix.makeBasis(across.multiplyScalar(widthMm), third.multiplyScalar(depthMm), along.multiplyScalar(length + 2 * beyondMm));
    this.matrix.setPosition(middle);
    this.bodies.setMatrixAt(i, this.matrix);
  }

  /** Takes the body out of the picture without moving the others. */
  hide(i: number): void {
    this.bodies.setMatrixAt(i, this.matrix.makeScale(0, 0, 0));
  }

  paint(i: number, fill: Color, ink: Color, widthPx: number): void {
    this.bodies.setColorAt(i, fill);
    this.ink.setXYZW(i, ink.r, ink.g, ink.b, widthPx);
  }

  flush(): void {
    this.bodies.instanceMatrix.needsUpdate = true;
    if (this.bodies.instanceColor) this.bodies.instanceColor.needsUpdate = true;
    this.ink.needsUpdate = true;
  }

  dispose(): void {
    this.bodies.dispose();
    this.outlines.dispose();
    this.shape.dispose();
    this.fill.dispose();
    this.outline.dispose();
    this.group.removeFromParent();
  }

  private reserve(capacity: number): void {
    this.group.clear();
    this.bodies?.dispose();
    this.outlines?.dispose();
    this.bodies = new InstancedMesh(this.shape, this.fill, capacity);
    this.outlines = new InstancedMesh(this.shape, this.outline, capacity);
    this.outlines.instanceMatrix = this.bodies.instanceMatrix;
    this.bodies.instanceMatrix.setUsage(DynamicDrawUsage);
    this.bodies.setColorAt(0, new Color());
    this.ink = new InstancedBufferAttribute(new Float32Array(capacity * 4), 4).setUsage(DynamicDrawUsage) as InstancedBufferAttribute;
    this.shape.setAttribute("ink", this.ink);
    this.bodies.frustumCulled = this.outlines.frustumCulled = false;
    this.bodies.renderOrder = this.outlines.renderOrder = turns.parts;
    this.bodies.count = this.outlines.count = 0;
    this.capacity = capacity;
    this.group.add(this.bodies, this.outlines);
  }
}

/** Gives a unit body whose vertices all lie at its ends or corners the directions in which its outline leaves them. */
export function leanOut(shape: BufferGeometry): void {
  const at = shape.getAttribute("position");
  const lean = new Float32Array(at.count * 3);
  for (let i = 0; i < at.count; i++) {
    const x = at.getX(i), y = at.getY(i), across = Math.hypot(x, y) || 1;
    lean.set([x / across, y / across, Math.sign(at.getZ(i))], 3 * i);
  }
  shape.setAttribute("lean", new BufferAttribute(lean, 3));
}
