// Wounds and incisions on the drawing of the skin: moved and stretched by pointer and by key. The page's server draws every step.

const enum Edge { Proximal = 1, Distal = 2, All = 15 }

/** Room about an edge in which it is taken hold of, px. */
const edgePx = 8, edgeTouchPx = 14;
/** Movement after which a press is a drag, px. */
const startPx = 3;
const keyStep = 5, fineKeyStep = 1;

/** An area in hand: what was moved so far, in mm and degrees. */
interface Hold { figure: HTMLElement; area: string; edges: number; mm: number; deg: number; key: string | null; pointer: number; x: number; y: number; moves: boolean }

let hold: Hold | null = null;
let awaited = -1, isQueued = false;

function areaAt(event: Event): SVGGElement | null {
  return event.target instanceof Element ? event.target.closest<SVGGElement>("[data-area]") : null;
}

function figureOf(area: Element): HTMLElement | null {
  return area.closest<HTMLElement>("[data-skin]");
}

/** The edges under a point of an area; all of them in its middle. */
function edgesAt(area: SVGGElement, x: number, y: number, isTouch: boolean): number {
  const box = area.querySelector("rect")!.getBoundingClientRect(), room = isTouch ? edgeTouchPx : edgePx;
  const across = Math.min(room, box.width / 4), down = Math.min(room, box.height / 4);
  const edges = (y < box.top + down ? Edge.Proximal : y > box.bottom - down ? Edge.Distal : 0)
    + (x < box.left + across ? Number(area.dataset["left"]) : x > box.right - across ? Number(area.dataset["right"]) : 0);
  return edges || Edge.All;
}

function write(figure: HTMLElement, event: "input" | "change", text: string): void {
  const input = figure.querySelector<HTMLInputElement>("[data-area-input]");
  if (!input) return;
  input.value = text;
  input.dispatchEvent(new Event(event, { bubbles: true }));
}

function words(h: Hold): string {
  return `${h.area} ${h.edges} ${h.mm.toFixed(2)} ${h.deg.toFixed(2)}`;
}

/** Sends the newest movement when the one before has been drawn. */
function send(): void {
  if (isQueued) return;
  isQueued = true;
  requestAnimationFrame(() => {
    isQueued = false;
    if (!hold?.moves) return;
    const drawn = Number(hold.figure.dataset["drawn"]);
    if (drawn < awaited) {
      send();
      return;
    }
    awaited = drawn + 1;
    write(hold.figure, "input", words(hold));
  });
}

function letGo(isTaken: boolean): void {
  const h = hold;
  hold = null;
  awaited = -1;
  if (h?.moves) write(h.figure, "change", isTaken ? words(h) : "");
}

function down(event: PointerEvent): void {
  const area = areaAt(event), figure = area && figureOf(area);
  if (!area || !figure || event.button !== 0 || hold) return;
  event.preventDefault();
  area.focus({ preventScroll: true });
  // On the drawing, since the area itself may be drawn anew on its way.
  area.ownerSVGElement!.setPointerCapture(event.pointerId);
  hold = { figure, area: area.dataset["area"]!, edges: edgesAt(area, event.clientX, event.clientY, event.pointerType === "touch"), mm: 0, deg: 0, key: null, pointer: event.pointerId, x: event.clientX, y: event.clientY, moves: false };
}

function move(event: PointerEvent): void {
  if (!hold) {
    const area = areaAt(event);
    if (area) area.style.cursor = cursor(area, edgesAt(area, event.clientX, event.clientY, false));
    return;
  }
  if (event.pointerId !== hold.pointer || hold.key !== null) return;
  const dx = event.clientX - hold.x, dy = event.clientY - hold.y;
  if (!hold.moves && Math.hypot(dx, dy) < startPx) return;
  const scale = hold.figure.querySelector("svg")!.getScreenCTM()!.a;
  hold.moves = true;
  hold.mm = dy / scale / Number(hold.figure.dataset["perMm"]);
  hold.deg = dx / scale / Number(hold.figure.dataset["perDeg"]);
  send();
}

function cursor(area: SVGGElement, edges: number): string {
  if (edges === Edge.All) return "move";
  const isProximal = (edges & Edge.Proximal) !== 0, isDown = isProximal || (edges & Edge.Distal) !== 0;
  const left = Number(area.dataset["left"]), isLeft = left !== 0 && (edges & left) !== 0, isAcross = edges > Edge.Proximal + Edge.Distal;
  return !isAcross ? "ns-resize" : !isDown ? "ew-resize" : isProximal === isLeft ? "nwse-resize" : "nesw-resize";
}

const arrows: Record<string, [right: number, down: number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function keyDown(event: KeyboardEvent): void {
  if (event.key === "Escape" && hold) {
    event.preventDefault();
    letGo(false);
    return;
  }
  const area = areaAt(event), figure = area && figureOf(area), arrow = arrows[event.key];
  if (!area || !figure || !arrow || event.ctrlKey || event.metaKey || (hold && hold.key === null)) return;
  event.preventDefault();
  const [right, dn] = arrow, edges = !event.altKey ? Edge.All : dn !== 0 ? Edge.Distal : Number(area.dataset["right"]);
  if (edges === 0) return;
  if (hold && hold.edges !== edges) letGo(true);
  hold ??= { figure, area: area.dataset["area"]!, edges, mm: 0, deg: 0, key: event.key, pointer: -1, x: 0, y: 0, moves: true };
  hold.key = event.key;
  const step = event.shiftKey ? fineKeyStep : keyStep;
  hold.mm += dn * step;
  hold.deg += right * step * Math.sign(Number(figure.dataset["perDeg"]));
  send();
}

/** Listens to the page; called once. */
export function startAreas(): void {
  document.addEventListener("pointerdown", down);
  document.addEventListener("pointermove", move);
  document.addEventListener("pointerup", event => { if (event.pointerId === hold?.pointer) letGo(true); });
  document.addEventListener("pointercancel", event => { if (event.pointerId === hold?.pointer) letGo(false); });
  document.addEventListener("keydown", keyDown);
  document.addEventListener("keyup", event => { if (hold?.key === event.key) letGo(true); });
  document.addEventListener("focusout", event => { if (hold?.key != null && areaAt(event)) letGo(true); });
}
