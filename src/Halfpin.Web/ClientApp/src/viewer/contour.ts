import type { Ink } from "./ink";
import type { Vec } from "./scene";
import type { Net } from "./surface";

/** The outline of smooth nets as seen from a direction, found again only when the direction or a net changes. */
export class Contour {
  private nets: Net[] = [];
  private readonly seenFrom: Vec = [0, 0, 0];

  constructor(readonly ink: Ink) {}

  set(nets: Net[]): void {
    this.nets = nets;
    this.seenFrom.fill(0);
  }

  look(toward: Vec): void {
    if (toward.every((c, k) => c === this.seenFrom[k])) return;
    toward.forEach((c, k) => (this.seenFrom[k] = c));
    this.ink.clear();
    for (const net of this.nets) drawContour(net, toward, this.ink);
    this.ink.flush();
  }
}

/** Draws the line where the normals of a net turn away from the eye, found within each triangle. */
function drawContour(net: Net, toward: Vec, ink: Ink): void {
  const { positions: p, normals: n, triangles } = net;
  const facing = (i: number) => n[3 * i]! * toward[0] + n[3 * i + 1]! * toward[1] + n[3 * i + 2]! * toward[2];
  const crossing = [0, 0, 0, 0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    let found = 0;
    for (let e = 0; e < 3 && found < 6; e++) {
      const i = triangles[t + e]!, j = triangles[t + ((e + 1) % 3)]!;
      const a = facing(i), b = facing(j);
      if (a >= 0 === b >= 0) continue;
      const s = a / (a - b);
      for (let k = 0; k < 3; k++) crossing[found++] = p[3 * i + k]! + s * (p[3 * j + k]! - p[3 * i + k]!);
    }
    if (found === 6) {
      // The run of the dashes follows the level, so that they join from triangle to triangle.
      ink.stroke(crossing[0]!, crossing[1]!, crossing[2]!, crossing[3]!, crossing[4]!, crossing[5]!, null, 1000 - Math.max(crossing[2]!, crossing[5]!));
    }
  }
}
