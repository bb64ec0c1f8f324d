import { BoxGeometry, BufferAttribute, Group } from "three";
import { Ink } from "./ink";
import { Instances } from "./instances";
import type { Shared } from "./paper";
import type { Clamp, Rod, Vec } from "./scene";
import type { Theme } from "./theme";
import { outlineOf } from "./verdict";

/** Size of the drawn block: along the rod, across it, and beyond the two axes it joins. */
const widthMm = 15, thickMm = 15, beyondMm = 8.5;

/** Clamps, as blocks from the axis of the rod to that of the pin, so that their eccentricity is seen; a loose one is open and dashed. */
export class Clamps {
  readonly group = new Group();
  private readonly blocks: Instances;
  private readonly loose: Ink;
  private readonly looseBad: Ink;
  private readonly looseChosen: Ink;

  constructor(shared: Shared, private readonly theme: Theme) {
    this.blocks = new Instances(shared, unitBox());
    this.loose = new Ink(shared, theme.ink, { widthPx: 1.4, dash: [3, 2.5] });
    this.looseBad = new Ink(shared, theme.bad, { widthPx: 2, dash: [3, 2.5] });
    this.looseChosen = new Ink(shared, theme.accent, { widthPx: 3, dash: [3, 2.5] });
    this.group.add(this.blocks.group, ...this.inks.map((i) => i.mesh));
  }

  set(clamps: Clamp[], rods: Rod[], selected: string | null): void {
    this.blocks.count = clamps.length;
    for (const ink of this.inks) ink.clear();
    for (let i = 0; i < clamps.length; i++) {
      const clamp = clamps[i]!;
      const alongRod = directionOfNearest(rods, clamp.onRod);
      const isSelected = clamp.id === selected;
      if (clamp.state === "loose") {
        this.blocks.hide(i);
        drawBox(isSelected ? this.looseChosen : clamp.verdict === "fail" ? this.looseBad : this.loose, clamp, alongRod);
      } else {
        this.blocks.place(i, clamp.onRod, clamp.onPin, beyondMm, widthMm, thickMm, alongRod);
      }
      const [ink, width] = outlineOf(clamp.verdict, isSelected, this.theme, this.theme.ink);
      this.blocks.paint(i, this.theme.sheet, ink, Math.max(1.3, width));
    }
    this.blocks.flush();
    for (const ink of this.inks) ink.flush();
  }

  set isSolid(isSolid: boolean) {
    this.group.visible = isSolid;
  }

  dispose(): void {
    this.blocks.dispose();
    for (const ink of this.inks) ink.dispose();
  }

  private get inks(): Ink[] {
    return [this.loose, this.looseBad, this.looseChosen];
  }
}

/** A unit box whose normals lean outward at the corners, so that its outline closes there. */
function unitBox(): BoxGeometry {
  const shape = new BoxGeometry(1, 1, 1);
  const at = shape.getAttribute("position"), normals = shape.getAttribute("normal") as BufferAttribute;
  for (let i = 0; i < at.count; i++) {
    const lean = 0.35;
    normals.setXYZ(i, normals.getX(i) + lean * Math.sign(at.getX(i)), normals.getY(i) + lean * Math.sign(at.getY(i)), normals.getZ(i) + lean * Math.sign(at.getZ(i)));
  }
  return shape;
}

const direction: Vec = [0, 0, 1];

function directionOfNearest(rods: Rod[], p: Vec): Vec {
  let best = Infinity;
  for (const rod of rods) {
    const x = rod.to[0] - rod.from[0], y = rod.to[1] - rod.from[1], z = rod.to[2] - rod.from[2];
    const length = x * x + y * y + z * z || 1;
    const px = p[0] - rod.from[0], py = p[1] - rod.from[1], pz = p[2] - rod.from[2];
    const t = Math.min(1, Math.max(0, (px * x + py * y + pz * z) / length));
    const d = Math.hypot(px - t * x, py - t * y, pz - t * z);
    if (d < best) {
      best = d;
      direction[0] = x, direction[1] = y, direction[2] = z;
    }
  }
  return direction;
}

/** The twelve edges of the block. */
function drawBox(ink: Ink, clamp: Clamp, alongRod: Vec): void {
  const unit = (v: Vec): Vec => {
    const l = Math.hypot(...v) || 1;
    return [v[0] / l, v[1] / l, v[2] / l];
  };
  const cross = (a: Vec, b: Vec): Vec => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  const { onRod: r, onPin: p } = clamp;
  const w = unit(alongRod);
  const e0: Vec = [p[0] - r[0], p[1] - r[1], p[2] - r[2]], span = Math.hypot(...e0);
  let e = unit(span > 1e-3 ? e0 : cross(w, [1, 0, 0]));
  const t = unit(cross(e, w));
  e = unit(cross(w, t));
  const half = span / 2 + beyondMm;
  const corner = (i: number): Vec => {
    const a = (i & 1 ? 1 : -1) * (widthMm / 2), b = (i & 2 ? 1 : -1) * (thickMm / 2), c = (i & 4 ? 1 : -1) * half;
    return [0, 1, 2].map((k) => (r[k]! + p[k]!) / 2 + w[k]! * a + t[k]! * b + e[k]! * c) as Vec;
  };
  for (let i = 0; i < 8; i++) for (const bit of [1, 2, 4]) if (!(i & bit)) ink.segment(corner(i), corner(i | bit));
}
