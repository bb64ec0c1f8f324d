import type { ViewCamera } from "./camera";
import type { Clamp, FrameGeometry, Pin, Rod, Vec } from "./scene";

/** Level of a pin where it passes the axis. */
export function pinLevelMm(pin: Pin): number {
  const x = pin.outer[0] - pin.tip[0], y = pin.outer[1] - pin.tip[1], flat = x * x + y * y;
  const t = flat > 0 ? -(pin.tip[0] * x + pin.tip[1] * y) / flat : 0;
  return -(pin.tip[2] + t * (pin.outer[2] - pin.tip[2]));
}

/** Distance from a section within which a pin is drawn as lying in it, mm. */
const nearSectionMm = 12;

/** Whether a pin belongs to a section; without a section every pin does. */
export function liesIn(sectionMm: number | null, pin: Pin): boolean {
  return sectionMm === null || Math.abs(pinLevelMm(pin) - sectionMm) <= nearSectionMm;
}

/** A clamp's point lies on the axis of the part it holds, but for rounding, mm. */
const joinedMm = 0.5;

/** The pin a clamp holds, if it holds one. */
export function pinOf(frame: FrameGeometry, clamp: Clamp): Pin | undefined {
  return frame.pins.find((p) => offAxis(clamp.onPin, p.tip, p.outer) <= joinedMm);
}

/** The rod a clamp sits on, if it sits on one. */
export function rodOf(frame: FrameGeometry, clamp: Clamp): Rod | undefined {
  return frame.rods.find((r) => offAxis(clamp.onRod, r.from, r.to) <= joinedMm);
}

/** Side of the picture away from the frame, −1 left or 1 right: where there is room for words. */
export function freeSide(frame: FrameGeometry, camera: ViewCamera): -1 | 1 {
  let sum = 0;
  for (const rod of frame.rods) sum += camera.direction([rod.from[0] + rod.to[0], rod.from[1] + rod.to[1], 0])[0];
  return sum > 0 ? -1 : 1;
}

/** Distance of a point from a piece of a line. */
export function offAxis(p: Vec, from: Vec, to: Vec): number {
  const ux = to[0] - from[0], uy = to[1] - from[1], uz = to[2] - from[2], wx = p[0] - from[0], wy = p[1] - from[1], wz = p[2] - from[2];
  const t = Math.min(1, Math.max(0, (wx * ux + wy * uy + wz * uz) / (ux * ux + uy * uy + uz * uz || 1)));
  return Math.hypot(wx - t * ux, wy - t * uy, wz - t * uz);
}
