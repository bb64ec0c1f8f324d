import {
  Color, DoubleSide, DynamicDrawUsage, GreaterDepth, InstancedBufferAttribute, InstancedBufferGeometry, Float32BufferAttribute, LessEqualDepth, Mesh,
  ShaderMaterial,
} from "three";
import type { Shared } from "./paper";
import type { Vec } from "./scene";

export interface InkOptions {
  widthPx?: number;
  opacity?: number;
  /** Length of a stroke and of the gap after it, mm along the line. */
  dash?: [number, number];
  /** Where the line shows: before the bodies, only behind the bone (a hidden edge; it must be opaque to keep its turn), or everywhere. */
  shows?: "before" | "behindBone" | "everywhere";
  /** Only where the surface it lies on faces the eye. */
  frontOnly?: boolean;
  /** How far the line is drawn toward the eye, so that the surface it lies on does not swallow it. */
  raisedMm?: number;
}

/** Depth of the scene along the line of sight, mm, as the camera has it. */
export const depthMm = 4000;

/** Order of drawing: hidden edges come after the bone that hides them and before the parts, which are not to count as hiding them. */
export const turns = { bone: 0, hiddenEdges: 1, parts: 2, lines: 3 };

/** Straight strokes of constant width on the screen. */
export class Ink {
  readonly mesh: Mesh;
  readonly material: ShaderMaterial;
  private geometry!: InstancedBufferGeometry;
  private from!: InstancedBufferAttribute;
  private to!: InstancedBufferAttribute;
  private facing!: InstancedBufferAttribute;
  private run!: InstancedBufferAttribute;
  private capacity = 0;
  private count = 0;

  constructor(shared: Shared, colour: Color, options: InkOptions = {}) {
    const [on, off] = options.dash ?? [1, 0];
    this.material = new ShaderMaterial({
      side: DoubleSide,
      transparent: (options.opacity ?? 1) < 1,
      depthWrite: false,
      depthTest: options.shows !== "everywhere",
      depthFunc: options.shows === "behindBone" ? GreaterDepth : LessEqualDepth,
      uniforms: {
        uColour: { value: colour }, uWidth: { value: options.widthPx ?? 1 }, uOpacity: { value: options.opacity ?? 1 }, uOn: { value: on },
        uOff: { value: off }, uFront: { value: options.frontOnly ? 1 : 0 }, uRaised: { value: (options.raisedMm ?? 0) / (depthMm / 2) },
        uViewport: shared.viewport, uRatio: shared.ratio,
      },
      vertexShader: /* glsl */ `
        attribute vec3 lineFrom, lineTo, facing;
        attribute vec2 run;
        uniform float uWidth, uRatio, uRaised;
        uniform vec2 uViewport;
        varying float vRun, vFacing;
        void main() {
          vec4 a = projectionMatrix * modelViewMatrix * vec4(lineFrom, 1.0);
          vec4 b = projectionMatrix * modelViewMatrix * vec4(lineTo, 1.0);
          vec2 d = (b.xy - a.xy) * uViewport;
          float l = length(d);
          d = l > 1e-4 ? d / l : vec2(1.0, 0.0);
          float t = position.x;
          vec4 p = mix(a, b, t);
          float px = max(uWidth * uRatio, 1.0);
          p.xy += (vec2(-d.y, d.x) * position.y + d * (t - 0.5) * 0.5) * px / uViewport;
          p.z -= uRaised;
          vRun = mix(run.x, run.y, t);
          vFacing = (normalMatrix * facing).z;
          gl_Position = p;
        }`,
      fragmentShader: /* glsl */ `
        uniform vec3 uColour;
        uniform float uOpacity, uOn, uOff, uFront;
        varying float vRun, vFacing;
        void main() {
          if (uFront > 0.5 && vFacing < 0.0) discard;
          if (uOff > 0.0 && mod(vRun, uOn + uOff) > uOn) discard;
          gl_FragColor = vec4(uColour, uOpacity);
        }`,
    });
    this.mesh = new Mesh(undefined, this.material);
    this.mesh.frustumCulled = false;
    this.mesh.renderOrder = options.shows === "behindBone" ? turns.hiddenEdges : turns.lines;
    this.reserve(32);
  }

  clear(): void {
    this.count = 0;
  }

  segment(a: ArrayLike<number>, b: ArrayLike<number>, facing: ArrayLike<number> | null = null, runMm = 0): void {
    this.stroke(a[0]!, a[1]!, a[2]!, b[0]!, b[1]!, b[2]!, facing, runMm);
  }

  stroke(ax: number, ay: number, az: number, bx: number, by: number, bz: number, facing: ArrayLike<number> | null = null, runMm = 0): void {
    if (this.count === this.capacity) this.reserve(this.capacity * 2);
    const i = this.count++;
    this.from.setXYZ(i, ax, ay, az);
    this.to.setXYZ(i, bx, by, bz);
    this.facing.setXYZ(i, facing?.[0] ?? 0, facing?.[1] ?? 0, facing?.[2] ?? 0);
    this.run.setXY(i, runMm, runMm + Math.hypot(bx - ax, by - ay, bz - az));
  }

  /** Joined strokes; dashes run through the joints. */
  polyline(points: ArrayLike<number>[], facing: ((i: number) => Vec) | null = null): void {
    let run = 0;
    for (let i = 1; i < points.length; i++) {
      const a = points[i - 1]!, b = points[i]!;
      this.segment(a, b, facing?.(i) ?? null, run);
      run += Math.hypot(b[0]! - a[0]!, b[1]! - a[1]!, b[2]! - a[2]!);
    }
  }

  /** Hands what was drawn since the last clear to the screen. */
  flush(): void {
    this.geometry.instanceCount = this.count;
    for (const a of [this.from, this.to, this.facing, this.run]) {
      a.clearUpdateRanges();
      a.addUpdateRange(0, this.count * a.itemSize);
      a.needsUpdate = true;
    }
  }

  set colour(colour: Color) {
    this.material.uniforms.uColour!.value = colour;
  }

  dispose(): void {
    this.geometry.dispose();
    this.material.dispose();
    this.mesh.removeFromParent();
  }

  private reserve(capacity: number): void {
    const grown = (old: InstancedBufferAttribute | undefined, size: number) => {
      const values = new Float32Array(capacity * size);
      if (old) values.set(old.array as Float32Array);
      return new InstancedBufferAttribute(values, size).setUsage(DynamicDrawUsage) as InstancedBufferAttribute;
    };
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute("position", new Float32BufferAttribute([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0], 3));
    geometry.setIndex([0, 1, 2, 0, 2, 3]);
    geometry.setAttribute("lineFrom", (this.from = grown(this.from, 3)));
    geometry.setAttribute("lineTo", (this.to = grown(this.to, 3)));
    geometry.setAttribute("facing", (this.facing = grown(this.facing, 3)));
    geometry.setAttribute("run", (this.run = grown(this.run, 2)));
    geometry.instanceCount = this.count;
    this.geometry?.dispose();
    this.mesh.geometry = this.geometry = geometry;
    this.capacity = capacity;
  }
}
