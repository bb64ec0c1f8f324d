import { BoxGeometry, Group, Matrix4, Vector3, type Color } from "three";
import { Ink } from "./ink";
import { Instances, leanOut } from "./instances";
import type { Shared } from "./paper";
import { offAxis } from "./parts";
import type { Clamp, Rod, Vec } from "./scene";
import type { Theme } from "./theme";
import { outlineOf } from "./verdict";

/** Size of the drawn block: along the rod, across it, and beyond the two axes it joins. */
const widthMm = 15, thickMm = 15, beyondMm = 8.5;

/** Clamps, as blocks from the axis of the rod to that of the pin, so that their eccentricity is seen; a loose one is open and dashed. */
export class Clamps {
  readonly group = new Group();
  private readonly blocks: Instances;
  private readonly edges: Ink;
  /** Edges of loose clamps, by how they are outlined. */
  private readonly loose: Map<Color, Ink>;

  constructor(shared: Shared, private readonly theme: Theme) {
    this.blocks = new Instances(shared, unitBox(), 0);
    this.edges = new Ink(shared, theme.ink, { widthPx: 1, raisedMm: 0.6 });
    const looks = [[theme.ink, 1.4], [theme.care, 2], [theme.bad, 2], [theme.accent, 2.6]] as const;
    this.loose = new Map(looks.map(([colour, widthPx]) => [colour, new Ink(shared, colour, { widthPx, dash: [3, 2.5] })]));
    this.group.add(this.blocks.group, ...this.inks.map((ink) => ink.mesh));
  }

  set(clamps: Clamp[], rods: Rod[], selected: string | null): void {
    this.blocks.count = clamps.length;
    for (const ink of this.inks) ink.clear();
    for (let i = 0; i < clamps.length; i++) {
      const clamp = clamps[i]!;
      const alongRod = directionOfNearest(rods, clamp.onRod);
      const [ink, width] = outlineOf(clamp.verdict, clamp.id === selected, this.theme, this.theme.ink);
      this.blocks.place(i, clamp.onRod, clamp.onPin, beyondMm, widthMm, thickMm, alongRod);
      drawBox(clamp.state === "loose" ? this.loose.get(ink)! : this.edges, this.blocks.matrix);
      if (clamp.state === "loose") this.blocks.hide(i);
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
    return [this.edges, ...this.loose.values()];
  }
}

function unitBox(): BoxGeometry {
  const shape = new BoxGeometry(1, 1, 1);
  leanOut(shape);
  return shape;
}

const direction: Vec = [0, 0, 1];

function directionOfNearest(rods: Rod[], p: Vec): Vec {
  let best = Infinity;
  for (const rod of rods) {
    const d = offAxis(p, rod.from, rod.to);
    if (d < best) {
      best = d;
      for (let k = 0; k < 3; k++) direction[k] = rod.to[k]! - rod.from[k]!;
    }
  }
  return direction;
}

/** The twelve edges of the unit box where a matrix puts them. */
function drawBox(ink: Ink, place: Matrix4): void {
  corners.forEach((corner, i) => corner.set(i & 1 ? 0.5 : -0.5, i & 2 ? 0.5 : -0.5, i & 4 ? 0.5 : -0.5).applyMatrix4(place));
  for (let i = 0; i < 8; i++) {
    for (let bit = 1; bit < 8; bit *= 2) {
      if (i & bit) continue;
      const a = corners[i]!, b = corners[i | bit]!;
      ink.stroke(a.x, a.y, a.z, b.x, b.y, b.z);
    }
  }
}

const corners = Array.from({ length: 8 }, () => new Vector3());
