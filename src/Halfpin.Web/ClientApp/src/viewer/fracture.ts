import type { Limb, Surface, Vec } from "./scene";
import { faceLevel, pointAt, radiusAt, type End } from "./surface";

/** Proximal and distal end of every fragment, from proximal. */
export function fragmentEnds(limb: Limb): [top: End, bottom: End][] {
  const fractures = [...limb.fractures].sort((a, b) => a.levelMm - b.levelMm);
  const levels = limb.bone.levelsMm;
  const first = levels[0] ?? 0, last = levels.at(-1) ?? 0;
  const within = (level: number) => Math.min(last, Math.max(first, level));
  return Array.from({ length: fractures.length + 1 }, (_, i): [End, End] => {
    const above = fractures[i - 1], below = fractures[i];
    return [
      above ? (azimuth) => within(faceLevel(limb.bone, above, 1, azimuth)) : () => first,
      below ? (azimuth) => within(faceLevel(limb.bone, below, -1, azimuth)) : () => last,
    ];
  });
}

/** Points where an end meets a surface, round it from an azimuth on, the first repeated. */
export function facePoints(surface: Surface, end: End, columns: number, fromAzimuthDeg = 0): Vec[] {
  return Array.from({ length: columns + 1 }, (_, j) => {
    const azimuth = fromAzimuthDeg + (360 * j) / columns, level = end(azimuth);
    return pointAt(level, azimuth, radiusAt(surface, level, azimuth));
  });
}
