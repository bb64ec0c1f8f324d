import type { Screen, ViewCamera } from "./camera";
import type { LabelSheet } from "./labels";
import { freeSide, pinLevelMm, pinOf, rodOf } from "./parts";
import type { Pen } from "./pen";
import type { FrameGeometry, Limb, Pin, Vec } from "./scene";
import { number } from "./words";

/** Shortest dimension drawn, CSS px; a shorter one is seen along its line of sight. */
const shortestPx = 16;

/** Dimensions on the drawing: rod to bone along the pin, and the nearest pins to the edges of the fracture. */
export function drawDimensions(frame: FrameGeometry, limb: Limb, camera: ViewCamera, labels: LabelSheet, pen: Pen): void {
  rodToBone(frame, camera, labels, pen);
  for (const [i, fracture] of limb.fractures.entries()) {
    for (const edge of [-1, 1] as const) {
      const edgeLevel = fracture.levelMm + (edge * fracture.gapMm) / 2;
      const pin = nearest(frame.pins, edgeLevel, edge);
      if (pin) pinToFracture(`near${i}${edge}`, pin, edgeLevel, frame, camera, labels, pen);
    }
  }
}

/** For each main rod at its most distal pin, where the words stand clear of the fracture. */
function rodToBone(frame: FrameGeometry, camera: ViewCamera, labels: LabelSheet, pen: Pen): void {
  const rods = frame.rods.filter((r) => !r.link);
  for (const rod of rods) {
    let best: { entry: Vec; on: Vec } | null = null;
    for (const clamp of frame.clamps) {
      const pin = rodOf(frame, clamp) === rod ? pinOf(frame, clamp) : undefined;
      if (pin && (!best || pin.entry[2] < best.entry[2])) best = { entry: pin.entry, on: clamp.onPin };
    }
    if (!best) continue;
    const a = camera.project(best.entry), b = camera.project(best.on);
    const text = `${rods.length > 1 ? `${rod.id} ` : ""}${number(distance(best.entry, best.on), 0)} mm`;
    dimension(`rod ${rod.id}`, text, a, b, away(camera, a, b, [0, 0, -1]), 22, 5, 1, labels, pen);
  }
}

/** On the side of the limb away from the frame. */
function pinToFracture(key: string, pin: Pin, edgeLevel: number, frame: FrameGeometry, camera: ViewCamera, labels: LabelSheet, pen: Pen): void {
  const level = pinLevelMm(pin);
  const a = camera.project([0, 0, -level]), b = camera.project([0, 0, -edgeLevel]);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  if (length < shortestPx) return;
  let side: [number, number] = [(b.y - a.y) / length, -(b.x - a.x) / length];
  if (side[0] * freeSide(frame, camera) < 0) side = [-side[0], -side[1]];
  const off = Math.max(30, 66 * camera.pxPerMm);
  dimension(key, `${number(Math.abs(level - edgeLevel), 0)} mm`, a, b, side, off, Math.max(5, 22 * camera.pxPerMm), 2, labels, pen);
}

function nearest(pins: Pin[], edgeLevel: number, edge: -1 | 1): Pin | null {
  let best: Pin | null = null, least = Infinity;
  for (const pin of pins) {
    const away = edge * (pinLevelMm(pin) - edgeLevel);
    if (away >= 0 && away < least) (best = pin), (least = away);
  }
  return best;
}

function away(camera: ViewCamera, a: Screen, b: Screen, toward: Vec): [number, number] {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const side: [number, number] = [(b.y - a.y) / length, -(b.x - a.x) / length];
  const d = camera.direction(toward);
  return side[0] * d[0] + side[1] * d[1] < 0 ? [-side[0], -side[1]] : side;
}

/**
 * A dimension line beside two points with slanting ticks and with extension lines that begin some way off the points; drawn only when its
 * words find room.
 */
function dimension(
  key: string, text: string, a: Screen, b: Screen, side: [number, number], offPx: number, fromPx: number, rank: number, labels: LabelSheet, pen: Pen,
): void {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  if (length < shortestPx) return;
  const at = (p: Screen, off: number): [number, number] => [p.x + side[0] * off, p.y + side[1] * off];
  const [ax, ay] = at(a, offPx), [bx, by] = at(b, offPx);
  const steep = Math.abs(by - ay) > Math.abs(bx - ax);
  const wx = (ax + bx) / 2 + side[0] * 4, wy = (ay + by) / 2 + (steep ? 0 : Math.sign(side[1] || 1) * 11);
  const draw = (isPlaced: boolean) => {
    if (!isPlaced) return;
    const line = (p: [number, number], q: [number, number]) => `M${f(p[0])} ${f(p[1])}L${f(q[0])} ${f(q[1])}`;
    pen.add("dim", line([ax, ay], [bx, by]));
    pen.add("dim", line(at(a, fromPx), at(a, offPx + 4)));
    pen.add("dim", line(at(b, fromPx), at(b, offPx + 4)));
    for (const [x, y] of [[ax, ay], [bx, by]] as const) pen.add("dim tick", `M${f(x - 4)} ${f(y + 4)}l8 -8`);
  };
  labels.add(key, text, wx, wy, { kind: "dim", rank, lean: steep ? (side[0] < 0 ? -1 : 1) : 0, placed: draw });
}

const f = (n: number) => n.toFixed(1);
const distance = (a: Vec, b: Vec) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
