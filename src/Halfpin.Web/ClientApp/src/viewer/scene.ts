/**
 * What the workbench hands to its 3D view and what it hears from it.
 *
 * Axes are those of a right limb: x anterior, y medial, z proximal, in mm. The level runs distally from the knee joint line, so
 * z = −level. Azimuth 0 is anterior and +90 medial on either side of the body. A left limb has the numbers of a right one and is
 * mirrored only when it is drawn: seen from the front, medial lies to the right of a right leg's picture and to the left of a left leg's.
 */

/** Side of the body. */
export type Side = "left" | "right";

/** How well a direction suits a pin. */
export type Zone = "preferred" | "safe" | "caution" | "avoid";

/** Outcome of the worst check of a part. */
export type Verdict = "pass" | "caution" | "fail";

/** A point or a displacement in limb axes, mm; a small rotation in rad. */
export type Vec = [number, number, number];

/** A closed surface round the limb's axis. */
export interface Surface {
  /** Levels of the rows, rising. */
  levelsMm: number[];
  /** One row a level: radii at azimuths evenly spaced from 0 in the sense of rising azimuth, the first not repeated. */
  radiiMm: number[][];
}

/** A plane across the bone. */
export interface Fracture {
  /** Middle of the gap on the axis. */
  levelMm: number;
  /** Gap between the faces along the axis. */
  gapMm: number;
  /** Tilt of the faces against the cross-section. */
  tiltDeg: number;
  /** Direction toward which the plane slopes distally. */
  tiltAzimuthDeg: number;
}

/** A patch of skin; the azimuth rises from its first to its second bound. */
export interface Area {
  fromLevelMm: number;
  toLevelMm: number;
  fromAzimuthDeg: number;
  toAzimuthDeg: number;
  kind: "wound" | "incision";
}

/** A range of directions at the chosen level; the azimuth rises from its first to its second bound. */
export interface Sector {
  fromDeg: number;
  toDeg: number;
  zone: Zone;
  /** Why, in words. */
  words: string;
}

/** A structure at the chosen level. */
export interface Structure {
  name: string;
  azimuthDeg: number;
  /** Distance from the axis. */
  radiusMm: number;
  kind: "artery" | "nerve" | "vein" | "tendon" | "bone";
}

/** The limb without its frame. */
export interface Limb {
  side: Side;
  lengthMm: number;
  bone: Surface;
  canal: Surface;
  skin: Surface;
  fractures: Fracture[];
  areas: Area[];
}

/** What lies at the chosen level. */
export interface Cut {
  levelMm: number;
  sectors: Sector[];
  structures: Structure[];
}

/** A half-pin from its tip to its outer end. */
export interface Pin {
  id: string;
  tip: Vec;
  /** Where it meets the near surface of the bone. */
  entry: Vec;
  outer: Vec;
  diameterMm: number;
  verdict: Verdict;
}

/** A rod, or a link between rods. */
export interface Rod {
  id: string;
  from: Vec;
  to: Vec;
  diameterMm: number;
  link: boolean;
  carbon: boolean;
  verdict: Verdict;
}

/** A clamp; its two points lie on the two axes it joins, so that the line between them is the eccentricity. */
export interface Clamp {
  id: string;
  onRod: Vec;
  onPin: Vec;
  state: "tight" | "loose";
  verdict: Verdict;
}

/** A frame as it stands. */
export interface FrameGeometry {
  /** A new id makes the view fit the frame again; with the same id the picture stays where it is. */
  id: string;
  pins: Pin[];
  rods: Rod[];
  clamps: Clamp[];
}

/** A number that a movement of a part changes: value = value at the start + factor × movement. */
export interface Handle {
  /** Id of the part. */
  part: string;
  /** Along the axis (mm, distally positive), round it (degrees of azimuth) or out from it (mm). */
  motion: "along" | "round" | "out";
  /** Where the number stands in the case file. */
  pointer: string;
  value: number;
  /** Change of the number for a movement of 1 mm or 1°. */
  factor: number;
  min: number;
  max: number;
  step: number;
  label: string;
  unit: string;
}

/** A bar and how its points move. */
export interface BentLine {
  part: string;
  diameterMm: number;
  points: Vec[];
  movedMm: Vec[];
}

/** Points on the bone's axis and how the bone moves there. */
export interface BentFragment {
  /** From proximal to distal. */
  levelsMm: number[];
  movedMm: Vec[];
  turnedRad: Vec[];
}

/** The bent shape under the chosen load. */
export interface Bent {
  lines: BentLine[];
  /** From proximal to distal, one for each fragment of the bone. */
  fragments: BentFragment[];
  /** How many times the movement is enlarged. */
  scale: number;
}

/** What the view says. */
export interface ViewerEvents {
  selected(part: string | null): void;
  /** Many times with done = false while a part is dragged, once with done = true when it is let go; Escape gives value null. */
  dragged(handle: Handle, value: number | null, done: boolean): void;
  /** The cut was moved, by its ring or by PageUp and PageDown. */
  levelChosen(levelMm: number): void;
  /** Short text for the address, such as "front" or "o:35,12,1.2". */
  cameraChanged(camera: string): void;
}

/** The view of one limb and one frame. */
export interface FrameViewer {
  setLimb(limb: Limb): void;
  setCut(cut: Cut): void;
  /** Up to 60 times a second while a part is dragged. */
  setFrame(frame: FrameGeometry, handles: Handle[]): void;
  setBent(bent: Bent | null, animate: boolean): void;
  select(part: string | null): void;
  /** "front", "medial", "lateral", "foot", "oblique" or the text of an earlier camera. */
  setCamera(camera: string): void;
  dispose(): void;
}
