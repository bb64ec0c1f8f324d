import { Group } from "three";
import { Ink } from "./ink";
import type { LabelSheet } from "./labels";
import type { Shared } from "./paper";
import type { Area, Surface, Vec } from "./scene";
import { normalAt, pointAt, radiusAt } from "./surface";
import type { ViewCamera } from "./camera";
import type { Theme } from "./theme";

/** Height of the drawing over the skin, so that the skin's own lines lie under it. */
const overSkinMm = 0.5;

/** Wounds, dashed and hatched, and planned incisions, dash-dotted. */
export class Wounds {
  readonly group = new Group();
  private readonly wound: Ink;
  private readonly hatch: Ink;
  private readonly incision: Ink;
  private areas: Area[] = [];
  private skin: Surface = { levelsMm: [], radiiMm: [] };

  constructor(shared: Shared, theme: Theme) {
    this.wound = new Ink(shared, theme.bad, { widthPx: 1.6, dash: [5, 4], frontOnly: true });
    this.hatch = new Ink(shared, theme.bad, { widthPx: 1, opacity: 0.45, frontOnly: true });
    this.incision = new Ink(shared, theme.accent, { widthPx: 1.4, dash: [11, 3], frontOnly: true });
    this.group.add(this.wound.mesh, this.hatch.mesh, this.incision.mesh);
  }

  set(areas: Area[], skin: Surface): void {
    this.areas = areas;
    this.skin = skin;
    for (const ink of [this.wound, this.hatch, this.incision]) ink.clear();
    for (const area of areas) {
      const ink = area.kind === "wound" ? this.wound : this.incision;
      this.line(ink, Array.from({ length: 49 }, (_, i) => outlineOf(area, i / 48)));
      if (area.kind === "wound") this.drawHatch(area);
    }
    for (const ink of [this.wound, this.hatch, this.incision]) ink.flush();
  }

  label(camera: ViewCamera, labels: LabelSheet): void {
    this.areas.forEach((area, i) => {
      const level = (area.fromLevelMm + area.toLevelMm) / 2, azimuth = area.fromAzimuthDeg + spanOf(area) / 2;
      const n = normalAt(this.skin, level, azimuth), t = camera.toward;
      if (n[0] * t[0] + n[1] * t[1] + n[2] * t[2] < 0.05) return;
      // Above its upper end, where the words cover neither the wound nor the fracture.
      const a = camera.project(this.point(area.fromLevelMm, azimuth)), b = camera.project(this.point(area.toLevelMm, azimuth));
      const at = a.y < b.y ? a : b;
      labels.add(`area${i}`, area.kind === "wound" ? "wound" : "planned incision", at.x, at.y - 10, { kind: area.kind, rank: 3, around: true });
    });
  }

  dispose(): void {
    for (const ink of [this.wound, this.hatch, this.incision]) ink.dispose();
  }

  private point(level: number, azimuth: number): Vec {
    return pointAt(level, azimuth, radiusAt(this.skin, level, azimuth) + overSkinMm);
  }

  private line(ink: Ink, at: [level: number, azimuth: number][]): void {
    ink.polyline(at.map(([level, azimuth]) => this.point(level, azimuth)), (i) => normalAt(this.skin, at[i]![0], at[i]![1]));
  }

  /** Slanting strokes across the wound, cut off at its rounded outline. */
  private drawHatch(area: Area): void {
    const span = spanOf(area), height = area.toLevelMm - area.fromLevelMm;
    for (let s = -0.9; s <= 0.91; s += 0.3) {
      // The outline is a rounded box |u|³ + |v|³ = 1; a stroke v = u + 2s is followed as far as it lies within.
      const inside: [number, number][] = [];
      for (let u = -1; u <= 1.001; u += 0.05) {
        const v = u + 2 * s;
        if (Math.abs(u) ** 3 + Math.abs(v) ** 3 <= 0.9) inside.push([area.fromLevelMm + ((v + 1) / 2) * height, area.fromAzimuthDeg + ((u + 1) / 2) * span]);
      }
      if (inside.length > 1) this.line(this.hatch, inside);
    }
  }
}

function spanOf(area: Area): number {
  return (((area.toAzimuthDeg - area.fromAzimuthDeg) % 360) + 360) % 360 || 360;
}

/** A point of the rounded outline of an area, round it once from 0 to 1. */
function outlineOf(area: Area, share: number): [level: number, azimuth: number] {
  const a = 2 * Math.PI * share, c = Math.cos(a), s = Math.sin(a);
  const scale = (Math.abs(c) ** 3 + Math.abs(s) ** 3) ** (-1 / 3);
  return [
    area.fromLevelMm + ((c * scale + 1) / 2) * (area.toLevelMm - area.fromLevelMm), area.fromAzimuthDeg + ((s * scale + 1) / 2) * spanOf(area),
  ];
}
