import type { Pin } from "./scene";

/** Level of a pin where it passes the axis. */
export function pinLevelMm(pin: Pin): number {
  const x = pin.outer[0] - pin.tip[0], y = pin.outer[1] - pin.tip[1], flat = x * x + y * y;
  const t = flat > 0 ? -(pin.tip[0] * x + pin.tip[1] * y) / flat : 0;
  return -(pin.tip[2] + t * (pin.outer[2] - pin.tip[2]));
}
