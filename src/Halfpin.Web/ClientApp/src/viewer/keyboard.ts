import type { Desk } from "./desk";
import { snapped } from "./pick";
import type { Handle } from "./scene";
import { valueOf } from "./words";

/** Text that tells a reader of the screen the keys. */
export const keysInWords =
  "Tab goes from part to part and then on; Escape leaves. With a part chosen, up and down arrows move it along the bone, left and right turn it round the bone, " +
  "plus and minus, or Alt with Page Up and Page Down, move it out and in; hold Shift for steps of 1. Without a part the arrows turn the picture. " +
  "Page Up and Page Down move the cut. 1 to 5 look from the front, medially, laterally, from the foot and obliquely; 0 fits the picture.";

const views = ["front", "medial", "lateral", "foot", "oblique"];
const turnDeg = 5, fineTurnDeg = 1, cutStepMm = 5, panPx = 40;

/** The same deeds as by pointer, by key. */
export class KeyHands {
  private held: { handle: Handle; value: number; key: string } | null = null;
  private readonly listening = new AbortController();

  constructor(private readonly desk: Desk, private readonly cancelPointer: () => boolean) {
    const { host } = desk, { signal } = this.listening;
    host.addEventListener("keydown", (e) => this.down(e), { signal });
    host.addEventListener("keyup", (e) => this.up(e), { signal });
    host.addEventListener("blur", () => this.letGo(), { signal });
  }

  dispose(): void {
    this.listening.abort();
  }

  private down(e: KeyboardEvent): void {
    if (e.ctrlKey || e.metaKey) return;
    if (this.act(e)) {
      e.preventDefault();
      e.stopPropagation();
    }
  }

  private act(e: KeyboardEvent): boolean {
    const { desk } = this;
    if (e.key === "Tab") return this.step(e.shiftKey ? -1 : 1);
    if (e.key === "]" || e.key === "[") return this.step(e.key === "]" ? 1 : -1);
    if (e.key === "Escape") return this.escape();
    const motion = motionOf(e);
    if (desk.selected !== null && motion) return this.change(motion[0], motion[1], e);
    if (!e.altKey && /^[0-5]$/.test(e.key)) {
      if (e.key === "0") desk.fit();
      else desk.preset(views[Number(e.key) - 1]!);
      return true;
    }
    if (e.key === "PageUp" || e.key === "PageDown") {
      if (e.altKey || desk.cutLevelMm === null) return false;
      desk.chooseLevel(desk.cutLevelMm + (e.key === "PageDown" ? 1 : -1) * (e.shiftKey ? 1 : cutStepMm));
      return true;
    }
    return this.moveCamera(e);
  }

  /** To the next part; false at the ends, so that the key goes on to the next control of the page. */
  private step(by: 1 | -1): boolean {
    const { desk } = this;
    this.letGo();
    const parts = order(desk);
    const next = (desk.selected === null ? (by > 0 ? -1 : 0) : parts.indexOf(desk.selected)) + by;
    if (next >= parts.length || next < 0) {
      if (desk.selected !== null) desk.choose(null);
      return false;
    }
    desk.choose(parts[next]!);
    return true;
  }

  private escape(): boolean {
    if (this.cancelPointer()) return true;
    if (this.held) {
      this.desk.events.dragged(this.held.handle, null, true);
      this.held = null;
      this.desk.showMoving(null);
      return true;
    }
    this.desk.choose(null);
    this.desk.host.blur();
    return true;
  }

  private change(motion: Handle["motion"], by: number, e: KeyboardEvent): boolean {
    const { desk } = this;
    const handle = desk.handles.find((h) => h.part === desk.selected && h.motion === motion);
    if (!handle) {
      desk.say(`This part cannot be moved ${motion === "along" ? "along the bone" : motion === "round" ? "round the bone" : "out"}`);
      return true;
    }
    if (this.held && this.held.handle.pointer !== handle.pointer) this.letGo();
    const from = this.held?.value ?? handle.value;
    const step = e.shiftKey ? Math.min(1, handle.step) : handle.step;
    // A movement of the part in the key's direction, whatever sign the number has.
    const value = snapped(handle, from + by * step * (Math.sign(handle.factor) || 1), e.shiftKey);
    this.held = { handle, value, key: e.key };
    const text = `${handle.label} ${valueOf(handle, value)}`;
    desk.showMoving(text);
    desk.events.dragged(handle, value, false);
    return true;
  }

  private up(e: KeyboardEvent): void {
    if (this.held?.key === e.key) this.letGo();
  }

  private letGo(): void {
    if (!this.held) return;
    const { handle, value } = this.held;
    this.held = null;
    this.desk.showMoving(null);
    this.desk.events.dragged(handle, value, true);
    this.desk.say(`${handle.label} ${valueOf(handle, value)}`);
  }

  private moveCamera(e: KeyboardEvent): boolean {
    const { camera } = this.desk, by = e.shiftKey ? fineTurnDeg : turnDeg;
    const [right, up] = arrows[e.key] ?? [0, 0];
    if (right || up) {
      if (e.altKey) camera.pan(right * panPx, up * panPx);
      else camera.orbit(camera.mirror * right * by, up * by);
    } else if (e.key === "+" || e.key === "=") camera.enlarge(1.2, camera.width / 2, camera.height / 2);
    else if (e.key === "-") camera.enlarge(1 / 1.2, camera.width / 2, camera.height / 2);
    else return false;
    this.desk.cameraMoved(true);
    return true;
  }
}

const arrows: Record<string, [right: number, up: number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

function motionOf(e: KeyboardEvent): [Handle["motion"], number] | null {
  switch (e.key) {
    case "ArrowUp": return ["along", -1];
    case "ArrowDown": return ["along", 1];
    case "ArrowLeft": return ["round", -1];
    case "ArrowRight": return ["round", 1];
    case "+": case "=": return ["out", 1];
    case "-": return ["out", -1];
    case "PageUp": return e.altKey ? ["out", 1] : null;
    case "PageDown": return e.altKey ? ["out", -1] : null;
    default: return null;
  }
}

/** Parts in the order of Tab: pins from proximal, rods, then clamps. */
function order(desk: Desk): string[] {
  const { pins, rods, clamps } = desk.frame;
  const byLevel = [...pins].sort((a, b) => b.entry[2] - a.entry[2]);
  return [...byLevel, ...rods, ...clamps].map((p) => p.id);
}
