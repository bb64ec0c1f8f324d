import type { Desk } from "./desk";
import { pinOf, rodOf } from "./parts";
import { dominant, isOnRing, pick, snapped, type Hit } from "./pick";
import type { Handle } from "./scene";
import { valueOf } from "./words";

/** Movement after which a press is a drag, px. */
const startPx = 4;
const wheelRestMs = 250;

type Deed =
  | { kind: "press"; hit: Hit | null; ring: boolean }
  | { kind: "part"; handle: Handle; px: [number, number]; start: number; value: number }
  | { kind: "ring"; startMm: number; px: [number, number] }
  | { kind: "orbit" }
  | { kind: "pan" };

/** Mouse, pen and touch: selects, drags parts and the cut, turns, moves and enlarges the picture. */
export class PointerHands {
  private readonly pointers = new Map<number, { x: number; y: number }>();
  private deed: Deed | null = null;
  private startX = 0;
  private startY = 0;
  private lastX = 0;
  private lastY = 0;
  private wheelTimer = 0;
  private readonly listening = new AbortController();

  constructor(private readonly desk: Desk) {
    const { host } = desk, { signal } = this.listening;
    host.addEventListener("pointerdown", (e) => this.down(e), { signal });
    host.addEventListener("pointermove", (e) => this.move(e), { signal });
    host.addEventListener("pointerup", (e) => this.up(e), { signal });
    host.addEventListener("pointercancel", (e) => this.up(e, true), { signal });
    host.addEventListener("wheel", (e) => this.wheel(e), { signal, passive: false });
    host.addEventListener("contextmenu", (e) => e.preventDefault(), { signal });
  }

  get isDragging(): boolean {
    return this.deed?.kind === "part";
  }

  /** Ends a drag as if it had never been. */
  cancel(): void {
    if (this.deed?.kind === "part") this.desk.events.dragged(this.deed.handle, null, true);
    this.end();
  }

  dispose(): void {
    this.listening.abort();
    clearTimeout(this.wheelTimer);
  }

  private at(e: MouseEvent): [number, number] {
    const box = this.desk.host.getBoundingClientRect();
    return [e.clientX - box.left - this.desk.host.clientLeft, e.clientY - box.top - this.desk.host.clientTop];
  }

  private down(e: PointerEvent): void {
    const [x, y] = this.at(e);
    this.desk.host.focus({ preventScroll: true });
    this.desk.host.setPointerCapture(e.pointerId);
    this.pointers.set(e.pointerId, { x, y });
    if (this.pointers.size === 2) {
      if (this.deed?.kind === "part") this.cancel();
      this.deed = { kind: "pan" };
      return;
    }
    if (this.pointers.size > 2) return;
    this.startX = this.lastX = x;
    this.startY = this.lastY = y;
    if (e.button !== 0) {
      this.deed = { kind: "pan" };
      return;
    }
    const room = e.pointerType === "touch" ? 20 : 10;
    const hit = pick(this.desk.frame, this.desk.camera, x, y, room);
    const ring = !hit && isOnRing(this.desk.ring, this.desk.camera, x, y, room);
    this.deed = { kind: "press", hit, ring };
    if (hit) this.desk.choose(hit.part);
  }

  private move(e: PointerEvent): void {
    const [x, y] = this.at(e);
    const pointer = this.pointers.get(e.pointerId);
    if (!pointer) {
      const isOnPart = pick(this.desk.frame, this.desk.camera, x, y, 10) !== null || isOnRing(this.desk.ring, this.desk.camera, x, y, 8);
      this.desk.host.classList.toggle("on-part", isOnPart);
      return;
    }
    if (this.pointers.size >= 2) this.pinch(e.pointerId, x, y);
    pointer.x = x;
    pointer.y = y;
    if (this.pointers.size >= 2) return;
    if (this.deed?.kind === "press" && Math.hypot(x - this.startX, y - this.startY) >= startPx) this.begin(this.deed, x, y);
    this.follow(x, y, e.shiftKey);
    this.lastX = x;
    this.lastY = y;
  }

  private begin(press: Deed & { kind: "press" }, x: number, y: number): void {
    const { desk } = this;
    if (press.hit) {
      const own = handlesOf(desk, press.hit.part);
      const found = dominant(own, desk.frame, desk.camera, press.hit.at, x - this.startX, y - this.startY);
      if (found) {
        desk.choose(found.handle.part);
        this.deed = { kind: "part", ...found, start: found.handle.value, value: found.handle.value };
        desk.host.classList.add("dragging");
        return;
      }
    }
    const px = desk.camera.direction([0, 0, -1]);
    if (press.ring && desk.cutLevelMm !== null && Math.hypot(...px) > 0.2 * desk.camera.pxPerMm) {
      this.deed = { kind: "ring", startMm: desk.cutLevelMm, px };
      desk.host.classList.add("dragging");
    } else {
      this.deed = { kind: "orbit" };
      desk.host.classList.add("turning");
    }
  }

  private follow(x: number, y: number, isFine: boolean): void {
    const { desk, deed } = this;
    const along = (px: [number, number]) => ((x - this.startX) * px[0] + (y - this.startY) * px[1]) / (px[0] ** 2 + px[1] ** 2);
    if (deed?.kind === "part") {
      const value = snapped(deed.handle, deed.start + deed.handle.factor * along(deed.px), isFine);
      desk.showMoving(`${deed.handle.label} ${valueOf(deed.handle, value)}`, x, y);
      if (value === deed.value) return;
      deed.value = value;
      desk.events.dragged(deed.handle, value, false);
    } else if (deed?.kind === "ring") {
      desk.chooseLevel(deed.startMm + along(deed.px));
    } else if (deed?.kind === "orbit") {
      desk.camera.orbit(-desk.camera.mirror * (x - this.lastX) * 0.4, (y - this.lastY) * 0.4);
      desk.cameraMoved(false);
    } else if (deed?.kind === "pan") {
      desk.camera.pan(this.lastX - x, y - this.lastY);
      desk.cameraMoved(false);
    }
  }

  private pinch(id: number, x: number, y: number): void {
    const other = [...this.pointers].find(([key]) => key !== id)?.[1], before = this.pointers.get(id);
    if (!other || !before) return;
    const was = Math.hypot(before.x - other.x, before.y - other.y), is = Math.hypot(x - other.x, y - other.y);
    this.desk.camera.pan(-(x - before.x) / 2, (y - before.y) / 2);
    if (was > 10 && is > 10) this.desk.camera.enlarge(is / was, (x + other.x) / 2, (y + other.y) / 2);
    this.desk.cameraMoved(false);
  }

  private up(e: PointerEvent, isLost = false): void {
    if (!this.pointers.delete(e.pointerId)) return;
    const { deed, desk } = this;
    if (this.pointers.size > 0) return;
    if (deed?.kind === "part") {
      desk.events.dragged(deed.handle, isLost ? null : deed.value, true);
      desk.say(isLost ? "" : `${deed.handle.label} ${valueOf(deed.handle, deed.value)}`);
    } else if (deed?.kind === "orbit" || deed?.kind === "pan") {
      desk.cameraMoved(true);
    } else if (deed?.kind === "press" && !deed.hit && !deed.ring && !isLost) {
      desk.choose(null);
    }
    this.end();
  }

  private end(): void {
    this.deed = null;
    this.desk.showMoving(null);
    this.desk.host.classList.remove("dragging", "turning");
  }

  private wheel(e: WheelEvent): void {
    e.preventDefault();
    const [x, y] = this.at(e);
    const unit = e.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    // A pinch on a touchpad comes as a wheel with Ctrl and with small numbers.
    this.desk.camera.enlarge(Math.exp(-e.deltaY * unit * (e.ctrlKey ? 0.012 : 0.0015)), x, y);
    this.desk.cameraMoved(false);
    clearTimeout(this.wheelTimer);
    this.wheelTimer = window.setTimeout(() => this.desk.cameraMoved(true), wheelRestMs);
  }
}

/** Handles of a part; a clamp without its own is taken to mean the pin and the rod it joins. */
function handlesOf(desk: Desk, part: string): Handle[] {
  const own = desk.handles.filter((h) => h.part === part);
  const clamp = own.length === 0 ? desk.frame.clamps.find((c) => c.id === part) : undefined;
  if (!clamp) return own;
  const joined = [pinOf(desk.frame, clamp)?.id, rodOf(desk.frame, clamp)?.id];
  return desk.handles.filter((h) => joined.includes(h.part));
}
