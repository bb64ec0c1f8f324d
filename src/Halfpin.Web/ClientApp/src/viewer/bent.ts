import { BufferAttribute, BufferGeometry, Group, Mesh, type ShaderMaterial } from "three";
import { Ink, turns } from "./ink";
import { fillMaterial, outlineMaterial, type Shared } from "./paper";
import type { Bent, BentLine, FrameGeometry, Vec } from "./scene";
import type { Theme } from "./theme";

const round = 12;

/** The frame's bars as they bend, over thin dashed lines where they stood. */
export class BentFrame {
  readonly group = new Group();
  private readonly steel: ShaderMaterial;
  private readonly carbon: ShaderMaterial;
  private readonly outline: ShaderMaterial;
  private readonly rest: Ink;
  private readonly tubes = new Group();

  constructor(shared: Shared, theme: Theme) {
    this.steel = fillMaterial(shared, theme.steel, theme.ink, { tone: 0.14 });
    this.carbon = fillMaterial(shared, theme.carbon, theme.ink, { tone: 0.14 });
    this.outline = outlineMaterial(shared, theme.ink, 1);
    this.rest = new Ink(shared, theme.soft, { widthPx: 1, opacity: 0.6, dash: [7, 5], shows: "everywhere" });
    this.group.add(this.tubes, this.rest.mesh);
    this.group.visible = false;
  }

  set(bent: Bent | null, frame: FrameGeometry): void {
    this.clear();
    this.rest.clear();
    this.group.visible = bent !== null;
    for (const line of bent?.lines ?? []) {
      if (line.points.length < 2) continue;
      const isCarbon = frame.rods.some((r) => r.id === line.part && r.carbon);
      const geometry = tube(line);
      for (const m of [isCarbon ? this.carbon : this.steel, this.outline]) {
        const mesh = new Mesh(geometry, m);
        mesh.frustumCulled = false;
        mesh.renderOrder = turns.parts;
        this.tubes.add(mesh);
      }
      this.rest.polyline(line.points);
    }
    this.rest.flush();
  }

  dispose(): void {
    this.clear();
    for (const m of [this.steel, this.carbon, this.outline]) m.dispose();
    this.rest.dispose();
  }

  private clear(): void {
    for (const mesh of this.tubes.children) (mesh as Mesh).geometry.dispose();
    this.tubes.clear();
  }
}

/** A tube along a polyline; the ring at each point is carried along by the movement of that point. */
function tube(line: BentLine): BufferGeometry {
  const n = line.points.length, positions: number[] = [], normals: number[] = [], moved: number[] = [], triangles: number[] = [];
  let across: Vec = [0, 0, 0];
  const ring = (i: number, radius: number, cap: number) => {
    const p = line.points[i]!, a = line.points[Math.max(0, i - 1)]!, b = line.points[Math.min(n - 1, i + 1)]!;
    const t = unit([b[0] - a[0], b[1] - a[1], b[2] - a[2]]);
    if (across.every((c) => c === 0)) across = Math.abs(t[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
    const along = across[0] * t[0] + across[1] * t[1] + across[2] * t[2];
    across = unit([across[0] - along * t[0], across[1] - along * t[1], across[2] - along * t[2]]);
    const third: Vec = [t[1] * across[2] - t[2] * across[1], t[2] * across[0] - t[0] * across[2], t[0] * across[1] - t[1] * across[0]];
    for (let j = 0; j < round; j++) {
      const c = Math.cos((2 * Math.PI * j) / round), s = Math.sin((2 * Math.PI * j) / round);
      for (let k = 0; k < 3; k++) {
        const out = across[k]! * c + third[k]! * s;
        positions.push(p[k]! + radius * out);
        normals.push(cap ? out * 0.3 + cap * t[k]! : out);
        moved.push(line.movedMm[i]?.[k] ?? 0);
      }
    }
  };
  const r = line.diameterMm / 2;
  ring(0, 0.01, -1);
  for (let i = 0; i < n; i++) ring(i, r, 0);
  ring(n - 1, 0.01, 1);
  for (let i = 0; i < n + 1; i++) {
    for (let j = 0; j < round; j++) {
      const a = i * round + j, b = i * round + ((j + 1) % round), c = a + round, d = b + round;
      triangles.push(a, b, c, b, d, c);
    }
  }
  const geometry = new BufferGeometry();
  for (const [name, values] of Object.entries({ position: positions, normal: normals, moved })) {
    geometry.setAttribute(name, new BufferAttribute(new Float32Array(values), 3));
  }
  geometry.setIndex(triangles);
  return geometry;
}

function unit(v: Vec): Vec {
  const l = Math.hypot(...v) || 1;
  return [v[0] / l, v[1] / l, v[2] / l];
}
