import { Matrix4, OrthographicCamera, Vector3, type Quaternion } from "three";
import { depthMm } from "./ink";
import type { Side, Vec } from "./scene";

const rad = Math.PI / 180;

/** Named directions of sight: azimuth and elevation of the eye. */
export const presets: Record<string, [azimuthDeg: number, elevationDeg: number]> = {
  front: [0, 0], medial: [90, 0], lateral: [-90, 0], foot: [0, -90], oblique: [-30, 16],
};

export interface Screen { x: number; y: number; depth: number }

/** Room round the fitted picture for dimensions and words, CSS px. */
export interface Margins { left: number; right: number; top: number; bottom: number }

/** A parallel view of the limb; all its points and directions are in limb axes, whichever side of the body. */
export class ViewCamera {
  readonly ortho = new OrthographicCamera(-1, 1, 1, -1, 0, depthMm);
  azimuthDeg = 0;
  elevationDeg = 0;
  zoom = 1;
  /** Shift of the picture's centre in the plane of the picture, as a share of the fitted height. */
  panRight = 0;
  panUp = 0;
  side: Side = "right";
  width = 1;
  height = 1;
  /** CSS px to a millimetre. */
  pxPerMm = 1;
  /** Unit vectors in limb axes: to the right of the picture, up and toward the eye. */
  readonly right: Vec = [0, 1, 0];
  readonly up: Vec = [0, 0, 1];
  readonly toward: Vec = [1, 0, 0];
  private preset: string | null = "front";
  private fitRight = 0;
  private fitUp = 0;
  private fitPxPerMm = 1;
  private fitHeightMm = 1;
  private readonly basis = new Matrix4();

  /** +1 for a right limb, −1 for a left one, which is mirrored. */
  get mirror(): 1 | -1 {
    return this.side === "left" ? -1 : 1;
  }

  get isFromFoot(): boolean {
    return this.elevationDeg < -70;
  }

  /** Takes a preset's name or the text of an earlier camera; false when the text means nothing. */
  set(text: string): boolean {
    const named = Object.hasOwn(presets, text) ? presets[text] : undefined;
    if (named) {
      [this.azimuthDeg, this.elevationDeg] = named;
      this.zoom = 1;
      this.panRight = this.panUp = 0;
      this.preset = text;
      this.turn();
      return true;
    }
    const numbers = /^o:(.+)$/.exec(text)?.[1]?.split(",").map(Number);
    if (!numbers || numbers.length < 3 || numbers.some((n) => !Number.isFinite(n))) return false;
    const [azimuth, elevation, zoom, right = 0, up = 0] = numbers as [number, number, number, number?, number?];
    this.azimuthDeg = azimuth;
    this.elevationDeg = Math.min(90, Math.max(-90, elevation));
    this.zoom = Math.min(12, Math.max(0.4, zoom));
    this.panRight = right;
    this.panUp = up;
    this.preset = null;
    this.turn();
    return true;
  }

  get text(): string {
    if (this.preset) return this.preset;
    const short = (n: number, digits: number) => String(Number(n.toFixed(digits)));
    const pan = this.panRight || this.panUp ? `,${short(this.panRight, 3)},${short(this.panUp, 3)}` : "";
    return `o:${short(this.azimuthDeg, 0)},${short(this.elevationDeg, 0)},${short(this.zoom, 2)}${pan}`;
  }

  orbit(azimuthDeg: number, elevationDeg: number): void {
    this.azimuthDeg = ((((this.azimuthDeg + azimuthDeg + 180) % 360) + 360) % 360) - 180;
    this.elevationDeg = Math.min(90, Math.max(-90, this.elevationDeg + elevationDeg));
    this.preset = null;
    this.turn();
  }

  pan(rightPx: number, upPx: number): void {
    this.panRight += rightPx / this.pxPerMm / this.fitHeightMm;
    this.panUp += upPx / this.pxPerMm / this.fitHeightMm;
    this.preset = null;
  }

  /** Enlarges the picture about a point of the screen. */
  enlarge(factor: number, x: number, y: number): void {
    const zoom = Math.min(12, Math.max(0.4, this.zoom * factor)), change = zoom / this.zoom;
    const fromCentreX = x - this.width / 2, fromCentreY = this.height / 2 - y;
    this.pan(fromCentreX * (1 - 1 / change), fromCentreY * (1 - 1 / change));
    this.zoom = zoom;
    this.preset = null;
  }

  /** Fits points into the picture as seen now. */
  fit(points: Iterable<ArrayLike<number>>, margins: Margins): void {
    let left = Infinity, right = -Infinity, low = Infinity, high = -Infinity;
    for (const p of points) {
      const r = dot(this.right, p), u = dot(this.up, p);
      left = Math.min(left, r), right = Math.max(right, r), low = Math.min(low, u), high = Math.max(high, u);
    }
    if (!Number.isFinite(left)) return;
    const roomX = Math.max(40, this.width - margins.left - margins.right), roomY = Math.max(40, this.height - margins.top - margins.bottom);
    this.fitPxPerMm = Math.min(roomX / Math.max(1, right - left), roomY / Math.max(1, high - low));
    this.fitHeightMm = roomY / this.fitPxPerMm;
    this.fitRight = (left + right) / 2 + (margins.right - margins.left) / 2 / this.fitPxPerMm;
    this.fitUp = (low + high) / 2 + (margins.top - margins.bottom) / 2 / this.fitPxPerMm;
  }

  /** Brings the picture's camera in line with the state. */
  update(): void {
    this.pxPerMm = this.fitPxPerMm * this.zoom;
    const w = this.width / 2 / this.pxPerMm, h = this.height / 2 / this.pxPerMm;
    Object.assign(this.ortho, { left: -w, right: w, top: h, bottom: -h });
    const m = this.mirror, centre = this.centre();
    const r = new Vector3(this.right[0], m * this.right[1], this.right[2]), u = new Vector3(this.up[0], m * this.up[1], this.up[2]);
    const t = new Vector3(this.toward[0], m * this.toward[1], this.toward[2]);
    (this.ortho.quaternion as Quaternion).setFromRotationMatrix(this.basis.makeBasis(r, u, t));
    this.ortho.position.set(0, 0, 0).addScaledVector(r, centre[0]).addScaledVector(u, centre[1]).addScaledVector(t, depthMm / 2);
    this.ortho.updateProjectionMatrix();
    this.ortho.updateMatrixWorld();
  }

  project(p: ArrayLike<number>): Screen {
    const centre = this.centre();
    return {
      x: this.width / 2 + (dot(this.right, p) - centre[0]) * this.pxPerMm,
      y: this.height / 2 - (dot(this.up, p) - centre[1]) * this.pxPerMm,
      depth: dot(this.toward, p),
    };
  }

  /** Where a displacement in limb axes leads on the screen, CSS px. */
  direction(v: ArrayLike<number>): [x: number, y: number] {
    return [dot(this.right, v) * this.pxPerMm, -dot(this.up, v) * this.pxPerMm];
  }

  private centre(): [number, number] {
    return [this.fitRight + this.panRight * this.fitHeightMm, this.fitUp + this.panUp * this.fitHeightMm];
  }

  private turn(): void {
    const a = this.azimuthDeg * rad, e = this.elevationDeg * rad, m = this.mirror;
    const ca = Math.cos(a), sa = Math.sin(a), ce = Math.cos(e), se = Math.sin(e);
    set(this.toward, ce * ca, ce * sa, se);
    set(this.up, -se * ca, -se * sa, ce);
    // Up × toward in the mirrored picture, written back in limb axes.
    set(this.right, -sa * m, ca * m, 0);
  }

  /** The same view after the side of the body changed. */
  refresh(side: Side): void {
    this.side = side;
    this.turn();
  }
}

function set(v: Vec, x: number, y: number, z: number): void {
  v[0] = x, v[1] = y, v[2] = z;
}

function dot(a: Vec, b: ArrayLike<number>): number {
  return a[0] * b[0]! + a[1] * b[1]! + a[2] * b[2]!;
}
