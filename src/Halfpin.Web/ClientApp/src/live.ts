// Joins a page of the server with the drawing and the live values: sends what is dragged over one socket and shows what comes back.
import { createViewer } from "./viewer/viewer";
import type { Bent, Cut, FrameGeometry, FrameViewer, Handle, Limb, Vec, Verdict } from "./viewer/scene";

const enum Kind { Drag = 1, Drop = 2, Cancel = 3, Level = 4, Bent = 5 }

interface ScenePart { id: string; points: Vec[]; diameterMm: number; kind: "pin" | "rod" | "link" | "clamp"; isCarbon: boolean; isLoose: boolean; verdict: Verdict }
interface SceneFrame { id: string; parts: ScenePart[]; handles: Handle[] }
interface LiveView {
  number: number; isDraft: boolean; texts: Record<string, string>; shares: Record<string, number | null>; verdict: Verdict;
  handles: Record<string, number>; frame: SceneFrame; limb: Limb | null; cut: Cut | null; bent: Bent | null; faults: string[];
}

declare const Blazor: { navigateTo(url: string, options: { replaceHistoryEntry: boolean }): void };

const retryMs = [250, 500, 1000, 2000, 4000];
const shares: Record<string, string> = { "": "--v", low: "--l", high: "--h", from: "--f", to: "--t", was: "--w" };

/** One frame on the screen: its drawing, its socket and the elements of the page that carry its values. */
class Bench {
  private socket: WebSocket | null = null;
  private viewer: FrameViewer | null = null;
  private number = 0;
  private pending: { kind: Kind; key: string; value: number } | null = null;
  private sentAt = new Map<number, number>();
  private tries = 0;
  private closed = false;
  private bentShown = false;
  private cameraTimer = 0;
  readonly address: string;

  constructor(readonly element: HTMLElement) {
    this.address = element.dataset["liveFrame"] ?? "";
    const host = element.querySelector<HTMLElement>("[data-viewer]");
    if (host) {
      this.viewer = createViewer(host, {
        selected: part => element.toggleAttribute("data-selected", part !== null),
        dragged: (handle, value, done) => value === null ? this.send(Kind.Cancel, "", 0) : this.send(done ? Kind.Drop : Kind.Drag, handle.pointer, value),
        levelChosen: level => this.chooseLevel(level),
        cameraChanged: camera => this.rememberCamera(camera),
      });
      this.viewer.setCamera(element.dataset["camera"] ?? "oblique");
    }
    this.connect();
  }

  close(): void {
    this.closed = true;
    clearTimeout(this.cameraTimer);
    this.socket?.close();
    this.viewer?.dispose();
  }

  /** Sends a value; drags wait for the next frame so that only the newest is sent. */
  send(kind: Kind, key: string, value: number): void {
    if (kind === Kind.Drag || kind === Kind.Level) {
      if (!this.pending) requestAnimationFrame(() => this.flush());
      this.pending = { kind, key, value };
      return;
    }
    this.pending = null;
    this.write(kind, key, value);
  }

  setCamera(camera: string): void {
    this.viewer?.setCamera(camera);
  }

  toggleBent(button: HTMLElement): void {
    this.bentShown = !this.bentShown;
    button.setAttribute("aria-pressed", String(this.bentShown));
    if (!this.bentShown) this.viewer?.setBent(null, false);
    this.send(Kind.Bent, "", this.bentShown ? 1 : 0);
  }

  private flush(): void {
    if (!this.pending) return;
    const { kind, key, value } = this.pending;
    this.pending = null;
    this.write(kind, key, value);
  }

  private write(kind: Kind, key: string, value: number): void {
    if (this.socket?.readyState !== WebSocket.OPEN) return;
    const text = new TextEncoder().encode(key);
    const message = new Uint8Array(13 + text.length);
    const fields = new DataView(message.buffer);
    this.number++;
    fields.setUint8(0, kind);
    fields.setUint32(1, this.number, true);
    fields.setFloat64(5, value, true);
    message.set(text, 13);
    this.sentAt.set(this.number, performance.now());
    this.socket.send(message);
  }

  private connect(): void {
    const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}${this.address}`);
    socket.binaryType = "arraybuffer";
    socket.onopen = () => {
      this.tries = 0;
      const level = Number(this.element.dataset["level"]);
      if (Number.isFinite(level)) this.write(Kind.Level, "", level);
      if (this.bentShown) this.write(Kind.Bent, "", 1);
    };
    socket.onmessage = event => this.show(JSON.parse(new TextDecoder().decode(event.data as ArrayBuffer)) as LiveView);
    socket.onclose = () => {
      if (!this.closed) setTimeout(() => { if (!this.closed) this.connect(); }, retryMs[Math.min(this.tries++, retryMs.length - 1)]);
    };
    this.socket = socket;
  }

  private show(view: LiveView): void {
    const page = this.element;
    for (const [key, text] of Object.entries(view.texts)) for (const at of page.querySelectorAll(`[data-live="${CSS.escape(key)}"]`)) setText(at, text);
    for (const track of page.querySelectorAll<HTMLElement>("[data-bar]")) {
      const bar = track.dataset["bar"] ?? "", marks = track.querySelector<HTMLElement>(".track");
      if (!marks) continue;
      for (const [name, property] of Object.entries(shares)) {
        const share = view.shares[name === "" ? bar : `${bar}.${name}`];
        if (share === null || share === undefined) marks.style.removeProperty(property);
        else marks.style.setProperty(property, String(share));
      }
      track.dataset["outside"] = String(view.shares[`${bar}.outside`] ?? 0);
    }
    const headline = page.querySelector<HTMLElement>(".headline");
    if (headline) headline.dataset["verdict"] = view.verdict;
    for (const [key, value] of Object.entries(view.handles)) {
      const text = String(Math.round(value * 1e4) / 1e4);
      for (const input of page.querySelectorAll<HTMLInputElement>(`[data-handle="${CSS.escape(key)}"],[data-number="${CSS.escape(key)}"]`)) {
        if (input !== document.activeElement || !(view.isDraft || this.isWaiting(view))) input.value = text;
      }
    }
    const message = page.querySelector<HTMLElement>("[data-live-faults]");
    if (message) message.dataset["text"] = view.faults.join(" ");
    if (message) message.setAttribute("aria-label", view.faults.join(" "));
    if (view.limb) this.viewer?.setLimb(view.limb);
    if (view.cut) this.viewer?.setCut(view.cut);
    this.viewer?.setFrame(geometry(view.frame), view.frame.handles);
    if (this.bentShown) this.viewer?.setBent(view.bent, !view.isDraft);
    const sent = this.sentAt.get(view.number);
    if (sent !== undefined) {
      for (const n of this.sentAt.keys()) if (n <= view.number) this.sentAt.delete(n);
      performance.measure("halfpin-live", { start: sent, end: performance.now() });
    }
    page.dataset["shown"] = String(view.number);
  }

  /** True while an answer to a newer value is still to come: the slider in hand is ahead of this view and must not be drawn back. */
  private isWaiting(view: LiveView): boolean {
    return this.pending !== null || (view.number === 0 ? this.sentAt.size > 0 : view.number < this.number);
  }

  private chooseLevel(level: number): void {
    this.send(Kind.Level, "", level);
    const input = this.element.querySelector<HTMLInputElement>("[data-level-input]");
    if (input) {
      input.value = String(Math.round(level * 10) / 10);
      clearTimeout(this.cameraTimer);
      this.cameraTimer = window.setTimeout(() => input.dispatchEvent(new Event("change", { bubbles: true })), 250);
    }
  }

  private rememberCamera(camera: string): void {
    clearTimeout(this.cameraTimer);
    this.cameraTimer = window.setTimeout(() => {
      const url = new URL(location.href);
      url.searchParams.set("view", camera);
      if (url.href !== location.href) Blazor.navigateTo(url.href, { replaceHistoryEntry: true });
    }, 400);
  }
}

// The page's own program keeps hold of text nodes: their text is changed, never the nodes.
function setText(at: Element, text: string): void {
  const node = at.firstChild;
  if (node instanceof Text) node.nodeValue = text;
}

function geometry(frame: SceneFrame): FrameGeometry {
  const of = (...kinds: string[]) => frame.parts.filter(p => kinds.includes(p.kind));
  return {
    id: frame.id,
    pins: of("pin").map(p => ({ id: p.id, tip: p.points[0]!, entry: p.points[1]!, outer: p.points[2]!, diameterMm: p.diameterMm, verdict: p.verdict })),
    rods: of("rod", "link").map(p => ({ id: p.id, from: p.points[0]!, to: p.points[1]!, diameterMm: p.diameterMm, link: p.kind === "link", carbon: p.isCarbon, verdict: p.verdict })),
    clamps: of("clamp").map(p => ({ id: p.id, onRod: p.points[0]!, onPin: p.points[1]!, state: p.isLoose ? "loose" as const : "tight" as const, verdict: p.verdict })),
  };
}

let bench: Bench | null = null;

function find(): void {
  const element = document.querySelector<HTMLElement>("[data-live-frame]");
  if (bench && (bench.element !== element || bench.address !== element?.dataset["liveFrame"])) {
    bench.close();
    bench = null;
  }
  if (element && !bench && element.querySelector("[data-viewer]")) bench = new Bench(element);
}

function target(event: Event, selector: string): HTMLElement | null {
  return event.target instanceof Element ? event.target.closest<HTMLElement>(selector) : null;
}

/** Listens to the page; called once. */
export function start(): void {
  document.addEventListener("input", event => {
    const input = target(event, "[data-handle]") as HTMLInputElement | null;
    if (input) bench?.send(Kind.Drag, input.dataset["handle"] ?? "", input.valueAsNumber);
  });
  document.addEventListener("change", event => {
    const input = target(event, "[data-handle]") as HTMLInputElement | null;
    if (input) bench?.send(Kind.Drop, input.dataset["handle"] ?? "", input.valueAsNumber);
  });
  document.addEventListener("click", event => {
    const camera = target(event, "[data-camera-to]"), bent = target(event, "[data-bent]");
    if (camera) bench?.setCamera(camera.dataset["cameraTo"] ?? "oblique");
    else if (bent) bench?.toggleBent(bent);
    else if (target(event, "[data-print]")) window.print();
  });
  document.addEventListener("keydown", event => {
    if (event.key === "Escape" && target(event, "[data-handle]")) bench?.send(Kind.Cancel, "", 0);
    const typing = event.target instanceof HTMLElement && event.target.matches("input:not([type=range]),textarea,select");
    if (typing || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase(), redo = key === "y" || (key === "z" && event.shiftKey);
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    document.getElementById(redo ? "redo" : "undo")?.click();
  });
  for (const kind of ["dragover", "drop"] as const) document.addEventListener(kind, event => {
    const field = target(event, "[data-drop]")?.querySelector<HTMLInputElement>("input[type=file]");
    if (!field || !(event instanceof DragEvent)) return;
    event.preventDefault();
    if (kind === "drop" && event.dataTransfer?.files.length) {
      field.files = event.dataTransfer.files;
      field.dispatchEvent(new Event("change", { bubbles: true }));
    }
  });
  new MutationObserver(find).observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ["data-live-frame"] });
  find();
}
