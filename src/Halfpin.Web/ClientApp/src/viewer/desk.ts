import type { ViewCamera } from "./camera";
import type { FrameGeometry, Handle, ViewerEvents } from "./scene";

/** What hands on the view need of it. */
export interface Desk {
  readonly host: HTMLElement;
  readonly camera: ViewCamera;
  readonly events: ViewerEvents;
  readonly frame: FrameGeometry;
  readonly handles: Handle[];
  readonly selected: string | null;
  /** Points of the ring of the cut. */
  readonly ring: number[][];
  readonly cutLevelMm: number | null;
  /** Selects a part and says so. */
  choose(part: string | null): void;
  chooseLevel(levelMm: number): void;
  /** The camera was moved by hand; isOver when the hand is off it. */
  cameraMoved(isOver: boolean): void;
  preset(name: string): void;
  fit(): void;
  /** Words beside the hand while it moves a part; null takes them away. */
  showMoving(text: string | null, x?: number, y?: number): void;
  say(text: string): void;
}
