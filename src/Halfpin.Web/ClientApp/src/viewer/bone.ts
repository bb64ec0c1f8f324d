import { BufferAttribute, BufferGeometry, DoubleSide, Group, Mesh, type ShaderMaterial } from "three";
import type { Bent, BentFragment, Limb, Vec } from "./scene";
import { Contour } from "./contour";
import { facePoints, fragmentEnds } from "./fracture";
import { Ink, turns } from "./ink";
import { fillMaterial, outlineMaterial, type Shared } from "./paper";
import { gridBetween, radiusAt, type End, type Net } from "./surface";
import type { Theme } from "./theme";

/** How far the canal is drawn into a fragment; no eye sees farther through the gap. */
const canalDepthMm = 45;

/** The bone: fragments with their sloping faces, and the canal seen at the faces. */
export class Bone {
  readonly group = new Group();
  private readonly wall: ShaderMaterial;
  private readonly outline: ShaderMaterial;
  private readonly face: ShaderMaterial;
  private readonly canal: ShaderMaterial;
  private readonly edges: Ink;
  private readonly ghost: Contour;
  private readonly geometries: { fragment: number; geometry: BufferGeometry }[] = [];
  private readonly solid = new Group();
  private isBent = false;

  constructor(shared: Shared, theme: Theme) {
    this.wall = fillMaterial(shared, theme.bone, theme.boneEdge, { tone: 0.3 });
    this.outline = outlineMaterial(shared, theme.boneEdge, 1.2);
    this.face = fillMaterial(shared, theme.cutBone, theme.boneEdge, { tone: 0, side: DoubleSide });
    this.canal = fillMaterial(shared, theme.boneEdge, theme.ink, { tone: 0.25, side: DoubleSide });
    this.edges = new Ink(shared, theme.boneEdge, { widthPx: 1.2, raisedMm: 0.8 });
    this.ghost = new Contour(new Ink(shared, theme.soft, { widthPx: 1, opacity: 0.6, dash: [7, 5], shows: "everywhere" }));
    this.group.add(this.solid, this.edges.mesh, this.ghost.ink.mesh);
  }

  set(limb: Limb): void {
    this.clear();
    const ends = fragmentEnds(limb);
    const grids = ends.map(([top, bottom]) => gridBetween(limb.bone, top, bottom));
    this.ghost.set(grids);
    this.edges.clear();
    ends.forEach(([top, bottom], i) => {
      const grid = grids[i]!;
      this.add(i, grid, this.wall, true);
      this.close(i, limb, top, i > 0 ? "fracture" : "joint", 1);
      this.close(i, limb, bottom, i < ends.length - 1 ? "fracture" : "joint", -1);
    });
    this.edges.flush();
  }

  /** Gives every vertex its movement; null returns to the bone at rest. */
  bend(bent: Bent | null): void {
    this.isBent = bent !== null;
    for (const { fragment, geometry } of this.geometries) {
      const shape = bent?.fragments[fragment];
      const moved = geometry.getAttribute("moved") as BufferAttribute;
      if (shape) moveBone(shape, geometry.getAttribute("position").array, moved.array as Float32Array);
      else moved.array.fill(0);
      moved.needsUpdate = true;
    }
  }

  /** The bone at rest as a thin outline while the bent one is drawn; nothing of it beside a section. */
  look(toward: Vec, isSection: boolean): void {
    this.solid.visible = !isSection;
    this.edges.mesh.visible = !isSection && !this.isBent;
    this.ghost.ink.mesh.visible = this.isBent;
    if (this.isBent) this.ghost.look(toward);
  }

  dispose(): void {
    this.clear();
    for (const m of [this.wall, this.outline, this.face, this.canal]) m.dispose();
    this.edges.dispose();
    this.ghost.ink.dispose();
  }

  private clear(): void {
    for (const { geometry } of this.geometries) geometry.dispose();
    this.geometries.length = 0;
    this.solid.clear();
  }

  /** A face across the bone, with the canal in it when it is broken bone; facing +1 proximally, −1 distally. */
  private close(fragment: number, limb: Limb, end: End, kind: "fracture" | "joint", facing: 1 | -1): void {
    const columns = 72;
    const outer = facePoints(limb.bone, end, columns);
    const inner = kind === "fracture" ? facePoints(limb.canal, canalEnd(limb, end), columns) : outer.map((p): Vec => [0, 0, p[2]]);
    const positions = new Float32Array([...outer, ...inner].flat()), normals = new Float32Array(positions.length);
    for (let i = 2; i < normals.length; i += 3) normals[i] = facing;
    const triangles: number[] = [];
    for (let j = 0; j < columns; j++) {
      const a = j, b = j + 1, c = columns + 1 + j, d = c + 1;
      if (facing > 0) triangles.push(a, b, c, b, d, c);
      else triangles.push(a, c, b, b, c, d);
    }
    this.add(fragment, { positions, normals, triangles: new Uint32Array(triangles) }, kind === "fracture" ? this.face : this.wall, false);
    if (kind === "joint") return;
    this.edges.polyline(outer);
    this.edges.polyline(inner);
    const into: End = (azimuth) => canalEnd(limb, end)(azimuth) + facing * canalDepthMm;
    const lip = canalEnd(limb, end);
    const wall = facing > 0 ? gridBetween(limb.canal, lip, into, 48, 15) : gridBetween(limb.canal, into, lip, 48, 15);
    this.add(fragment, wall, this.canal, false);
  }

  private add(fragment: number, net: Net, material: ShaderMaterial, outlined: boolean): void {
    const { positions, normals, triangles } = net;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(positions, 3));
    geometry.setAttribute("normal", new BufferAttribute(normals, 3));
    geometry.setAttribute("moved", new BufferAttribute(new Float32Array(positions.length), 3));
    geometry.setIndex(new BufferAttribute(triangles, 1));
    this.geometries.push({ fragment, geometry });
    for (const m of outlined ? [material, this.outline] : [material]) {
      const mesh = new Mesh(geometry, m);
      mesh.frustumCulled = false;
      mesh.renderOrder = turns.bone;
      this.solid.add(mesh);
    }
  }
}

/** The face's slope carried on to the wall of the canal. */
function canalEnd(limb: Limb, end: End): End {
  return (azimuth) => {
    // Along one direction the face is a straight line through the axis; two opposite points of the bone give it.
    const near = end(azimuth), far = end(azimuth + 180);
    const rNear = radiusAt(limb.bone, near, azimuth), rFar = radiusAt(limb.bone, far, azimuth + 180);
    const axis = (near * rFar + far * rNear) / (rNear + rFar);
    const slope = (near - axis) / Math.max(1e-6, rNear);
    return axis + slope * radiusAt(limb.canal, axis, azimuth);
  };
}

function moveBone(shape: BentFragment, at: ArrayLike<number>, moved: Float32Array): void {
  const { levelsMm, movedMm, turnedRad } = shape;
  const last = levelsMm.length - 1;
  for (let i = 0; i < at.length; i += 3) {
    const x = at[i]!, y = at[i + 1]!, level = -at[i + 2]!;
    let row = 0;
    while (row < last - 1 && levelsMm[row + 1]! < level) row++;
    const next = Math.min(row + 1, last), span = levelsMm[next]! - levelsMm[row]!;
    const t = span > 0 ? Math.min(1, Math.max(0, (level - levelsMm[row]!) / span)) : 0;
    const mix = (rows: Vec[], k: number) => (1 - t) * rows[row]![k]! + t * rows[next]![k]!;
    const wx = mix(turnedRad, 0), wy = mix(turnedRad, 1), wz = mix(turnedRad, 2);
    // The point is carried by its section: movement of the axis plus rotation × arm, the arm lying in the section.
    moved[i] = mix(movedMm, 0) - wz * y;
    moved[i + 1] = mix(movedMm, 1) + wz * x;
    moved[i + 2] = mix(movedMm, 2) + wx * y - wy * x;
  }
}
