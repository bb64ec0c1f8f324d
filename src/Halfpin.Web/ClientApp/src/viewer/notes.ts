import type { ViewCamera } from "./camera";
import type { LabelSheet } from "./labels";
import { liesIn } from "./parts";
import type { Pen } from "./pen";
import type { FrameGeometry, Limb, Vec, Verdict } from "./scene";
import { ringStepMm } from "./skin";
import { pointAt, radiusAt } from "./surface";
import { signs } from "./verdict";
import { levelOf, nameOf, number } from "./words";

/** Names of the pins, signs of the verdicts, and where the selected part stands; in a section only of the pins that lie in it. */
export function lookAtParts(frame: FrameGeometry, selected: string | null, sectionMm: number | null, camera: ViewCamera, labels: LabelSheet, pen: Pen): void {
  const note = (id: string, at: Vec, verdict: Verdict, lean: -1 | 1) => {
    const p = camera.project(at);
    if (verdict !== "pass") labels.add(`sign ${id}`, `${signs[verdict]} ${id}`, p.x, p.y, { kind: "sign", sign: verdict, lean, around: true, rank: 1 });
    if (id === selected) {
      const x = p.x + lean * 22, y = p.y - 20;
      const placed = (isPlaced: boolean) => isPlaced && pen.add("chosen", `M${p.x.toFixed(1)} ${p.y.toFixed(1)}L${x.toFixed(1)} ${y.toFixed(1)}`);
      labels.add("chosen", `${nameOf(frame, id)} · ${levelOf(frame, id)}`, x, y, { kind: "chosen", lean, around: true, rank: 0, placed });
    }
  };
  for (const pin of frame.pins) {
    if (!liesIn(sectionMm, pin) && pin.id !== selected) continue;
    const lean = camera.direction([pin.outer[0] - pin.tip[0], pin.outer[1] - pin.tip[1], 0])[0] < 0 ? -1 : 1;
    note(pin.id, pin.outer, pin.verdict, lean);
    if (pin.id === selected || pin.verdict !== "pass") continue;
    const p = camera.project(pin.outer);
    labels.add(`name ${pin.id}`, pin.id, p.x, p.y, { kind: "scale", lean, rank: 3, around: true });
  }
  for (const rod of frame.rods) note(rod.id, rod.from[2] > rod.to[2] ? rod.from : rod.to, rod.verdict, 1);
  for (const clamp of frame.clamps) note(clamp.id, clamp.onRod, clamp.verdict, 1);
}

/** Levels beside the lines round the skin, on the free side of the picture. */
export function drawLevels(limb: Limb, free: -1 | 1, camera: ViewCamera, labels: LabelSheet): void {
  if (Math.abs(camera.toward[2]) > 0.6) return;
  const azimuth = (Math.atan2(camera.right[1] * free, camera.right[0] * free) * 180) / Math.PI;
  for (let level = 0; level <= limb.lengthMm; level += ringStepMm) {
    const p = camera.project(pointAt(level, azimuth, radiusAt(limb.skin, level, azimuth)));
    labels.add(`level ${level}`, number(level, 0), p.x, p.y, { kind: "scale", lean: free, rank: 6 });
  }
}
