import type { ViewCamera } from "./camera";
import { offAxis } from "./parts";
import type { FrameGeometry, Handle, Vec } from "./scene";

/** What lies under a point of the screen. */
export interface Hit { part: string; at: Vec }

/** Room round a clamp, px: it is large enough for the hand itself, and the thin parts beside it are meant more often. */
const clampRoomPx = 4;

/** The part nearest to a point of the screen, with room for a hand round thin ones; of several under the point the one nearest the eye. */
export function pick(frame: FrameGeometry, camera: ViewCamera, x: number, y: number, roomPx: number): Hit | null {
  let best: Hit | null = null, least = Infinity;
  const offer = (part: string, a: Vec, b: Vec, radiusMm: number, favourPx: number, room = roomPx) => {
    const p = camera.project(a), q = camera.project(b);
    const dx = q.x - p.x, dy = q.y - p.y, length = dx * dx + dy * dy;
    const t = length > 1e-6 ? Math.min(1, Math.max(0, ((x - p.x) * dx + (y - p.y) * dy) / length)) : 0.5;
    const off = Math.max(0, Math.hypot(x - p.x - t * dx, y - p.y - t * dy) - radiusMm * camera.pxPerMm);
    if (off > room) return;
    const score = off - favourPx - (p.depth + t * (q.depth - p.depth)) * 0.01;
    if (score >= least) return;
    least = score;
    best = { part, at: [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])] };
  };
  for (const p of frame.pins) offer(p.id, p.tip, p.outer, p.diameterMm / 2, 0);
  for (const r of frame.rods) offer(r.id, r.from, r.to, r.diameterMm / 2, 1);
  for (const c of frame.clamps) offer(c.id, c.onRod, c.onPin, 8, 3, Math.min(roomPx, clampRoomPx));
  return best;
}

/** Whether a point of the screen lies on the ring of the cut. */
export function isOnRing(ring: number[][], camera: ViewCamera, x: number, y: number, roomPx: number): boolean {
  return ring.some((p) => {
    const s = camera.project(p);
    return Math.hypot(s.x - x, s.y - y) <= roomPx;
  });
}

/** How a point of a part moves, in limb axes, when a handle moves it by 1 mm or 1°. */
export function movementOf(handle: Handle, frame: FrameGeometry, at: Vec): Vec {
  if (handle.motion === "along") return [0, 0, -1];
  if (handle.motion === "round") return [(-at[1] * Math.PI) / 180, (at[0] * Math.PI) / 180, 0];
  // A rod stands off along its pins, of which the nearest speaks for all.
  let pin = frame.pins.find((p) => p.id === handle.part) ?? null;
  if (!pin) for (const p of frame.pins) if (!pin || offAxis(at, p.tip, p.outer) < offAxis(at, pin.tip, pin.outer)) pin = p;
  const out: Vec = pin ? [pin.outer[0] - pin.tip[0], pin.outer[1] - pin.tip[1], pin.outer[2] - pin.tip[2]] : [at[0], at[1], 0];
  const length = Math.hypot(...out) || 1;
  return [out[0] / length, out[1] / length, out[2] / length];
}

/** Share of its true length below which a movement is seen too much end-on to be drawn by hand. */
const leastSeen = 0.2;

/** Out and round run alike on the screen when a part is seen askew; out is then what is meant more often. */
const outFavour = 1.4;

/** The handle whose movement on the screen agrees best with that of the pointer, and that movement, px for 1 mm or 1°. */
export function dominant(handles: Handle[], frame: FrameGeometry, camera: ViewCamera, at: Vec, dx: number, dy: number): { handle: Handle; px: [number, number] } | null {
  let best: { handle: Handle; px: [number, number] } | null = null, most = 0;
  for (const handle of handles) {
    const v = movementOf(handle, frame, at), trueMm = Math.hypot(...v), px = camera.direction(v), seenPx = Math.hypot(...px);
    const seen = seenPx / (trueMm * camera.pxPerMm || 1);
    if (seen < leastSeen) continue;
    const score = (Math.abs(dx * px[0] + dy * px[1]) / seenPx) * seen * (handle.motion === "out" ? outFavour : 1);
    if (score > most) (most = score), (best = { handle, px });
  }
  return best;
}

/** A value on the handle's steps and within its bounds. */
export function snapped(handle: Handle, value: number, isFine: boolean): number {
  const step = isFine ? Math.min(1, handle.step) : handle.step;
  const onStep = step > 0 ? Math.round(value / step) * step : value;
  return Math.min(handle.max, Math.max(handle.min, Number(onStep.toFixed(6))));
}
