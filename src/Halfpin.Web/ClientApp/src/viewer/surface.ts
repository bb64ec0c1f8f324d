import type { Fracture, Surface, Vec } from "./scene";

const rad = Math.PI / 180;

/** The point at a level, an azimuth and a distance from the axis. */
export function pointAt(levelMm: number, azimuthDeg: number, radiusMm: number): Vec {
  return [radiusMm * Math.cos(azimuthDeg * rad), radiusMm * Math.sin(azimuthDeg * rad), -levelMm];
}

/** Radius of a surface, cubic round the axis and linear along it; beyond the ends the end rows hold. */
export function radiusAt(surface: Surface, levelMm: number, azimuthDeg: number): number {
  const levels = surface.levelsMm;
  if (levels.length === 0) return 0;
  let row = 0;
  while (row < levels.length - 2 && levels[row + 1]! < levelMm) row++;
  const next = Math.min(row + 1, levels.length - 1);
  const span = levels[next]! - levels[row]!;
  const share = span > 0 ? Math.min(1, Math.max(0, (levelMm - levels[row]!) / span)) : 0;
  return (1 - share) * roundAt(surface.radiiMm[row]!, azimuthDeg) + share * roundAt(surface.radiiMm[next]!, azimuthDeg);
}

/** Catmull–Rom through evenly spaced values of a closed curve. */
function roundAt(radii: number[], azimuthDeg: number): number {
  const n = radii.length;
  const at = ((((azimuthDeg / 360) * n) % n) + n) % n;
  const i = Math.floor(at), t = at - i;
  const a = radii[(i + n - 1) % n]!, b = radii[i % n]!, c = radii[(i + 1) % n]!, d = radii[(i + 2) % n]!;
  return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

/** Whether a surface reaches a level. */
export function reaches(surface: Surface, levelMm: number): boolean {
  return surface.levelsMm.length > 0 && levelMm >= surface.levelsMm[0]! && levelMm <= surface.levelsMm.at(-1)!;
}

/** Level at which a face of a fracture meets a surface; edge −1 is the distal end of the fragment above, +1 the proximal end of the one below. */
export function faceLevel(surface: Surface, fracture: Fracture, edge: -1 | 1, azimuthDeg: number): number {
  const middle = fracture.levelMm + (edge * fracture.gapMm) / 2;
  const slope = Math.tan(fracture.tiltDeg * rad) * Math.cos((azimuthDeg - fracture.tiltAzimuthDeg) * rad);
  // The radius depends on the level sought: a few rounds settle it, since the surface is steep against the face.
  let level = middle;
  for (let i = 0; i < 4; i++) level = middle + slope * radiusAt(surface, level, azimuthDeg);
  return level;
}

/** Vertices, outward normals and triangles. */
export interface Net {
  positions: Float32Array<ArrayBuffer>;
  normals: Float32Array<ArrayBuffer>;
  triangles: Uint32Array<ArrayBuffer>;
}

/** End of a surface by azimuth. */
export type End = (azimuthDeg: number) => number;

/** The part of a surface between two ends, as a net of which each vertex is moved along the bone to lie between them. */
export function gridBetween(surface: Surface, top: End, bottom: End, columns = 72, stepMm = 5): Net {
  const tops: number[] = [], bottoms: number[] = [];
  for (let j = 0; j <= columns; j++) {
    const azimuth = (360 * j) / columns;
    tops.push(top(azimuth));
    bottoms.push(Math.max(tops[j]!, bottom(azimuth)));
  }
  const from = Math.min(...tops), to = Math.max(...bottoms);
  const count = Math.max(1, Math.ceil((to - from) / stepMm));
  const rows = count + 1;
  const positions = new Float32Array(rows * (columns + 1) * 3), normals = new Float32Array(rows * (columns + 1) * 3);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j <= columns; j++) {
      const azimuth = (360 * j) / columns;
      const level = Math.min(bottoms[j]!, Math.max(tops[j]!, from + ((to - from) * i) / count));
      const at = (i * (columns + 1) + j) * 3;
      positions.set(pointAt(level, azimuth, radiusAt(surface, level, azimuth)), at);
      normals.set(normalAt(surface, level, azimuth), at);
    }
  }
  return { positions, normals, triangles: mesh(rows, columns) };
}

/** Outward normal of a surface. */
export function normalAt(surface: Surface, levelMm: number, azimuthDeg: number): Vec {
  const h = 4, r = Math.max(radiusAt(surface, levelMm, azimuthDeg), 1e-3);
  const round = (radiusAt(surface, levelMm, azimuthDeg + h) - radiusAt(surface, levelMm, azimuthDeg - h)) / (2 * h * rad * r);
  const above = Math.max(levelMm - h, surface.levelsMm[0] ?? 0), below = Math.min(levelMm + h, surface.levelsMm.at(-1) ?? 0);
  const down = (radiusAt(surface, below, azimuthDeg) - radiusAt(surface, above, azimuthDeg)) / Math.max(1e-6, below - above);
  const c = Math.cos(azimuthDeg * rad), s = Math.sin(azimuthDeg * rad);
  const x = c + round * s, y = s - round * c, length = Math.hypot(x, y, down);
  return [x / length, y / length, down / length];
}

/** Triangles of rows of vertices, outward faces counterclockwise in right-handed axes. */
function mesh(rows: number, columns: number): Uint32Array<ArrayBuffer> {
  const triangles = new Uint32Array((rows - 1) * columns * 6);
  let n = 0;
  for (let i = 0; i < rows - 1; i++) {
    for (let j = 0; j < columns; j++) {
      const a = i * (columns + 1) + j, b = a + 1, c = a + columns + 1, d = c + 1;
      triangles.set([a, c, b, b, c, d], n);
      n += 6;
    }
  }
  return triangles;
}

/** Points round a surface at one level, the first repeated. */
export function ringAt(surface: Surface, levelMm: number, columns = 96): Vec[] {
  return Array.from({ length: columns + 1 }, (_, j) => {
    const azimuth = (360 * j) / columns;
    return pointAt(levelMm, azimuth, radiusAt(surface, levelMm, azimuth));
  });
}
