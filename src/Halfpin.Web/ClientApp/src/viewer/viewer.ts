import { Group, Scene, WebGLRenderer } from "three";
import { BentFrame } from "./bent";
import { Bone } from "./bone";
import { ViewCamera, type Margins } from "./camera";
import { Clamps } from "./clamps";
import { CutPlane } from "./cut";
import type { Desk } from "./desk";
import { drawDimensions } from "./dimensions";
import { KeyHands } from "./keyboard";
import { LabelSheet } from "./labels";
import { drawLevels, lookAtParts } from "./notes";
import { createShared } from "./paper";
import { freeSide } from "./parts";
import { Pen } from "./pen";
import { Pins } from "./pins";
import { PointerHands } from "./pointer";
import { Rods } from "./rods";
import type { Bent, Cut, FrameGeometry, FrameViewer, Handle, Limb, ViewerEvents } from "./scene";
import { furnish, type Furniture } from "./furniture";
import { Skin } from "./skin";
import { ringAt } from "./surface";
import { ThemeReader } from "./theme";
import { number, spoken } from "./words";
import { Wounds } from "./wound";

const maxPixelRatio = 2;
/** One swing of the animated load. */
const swingMs = 2400;

/** Draws a limb and its frame in the host. Without WebGL the host says so and the view takes every call without effect. */
export function createViewer(host: HTMLElement, events: ViewerEvents): FrameViewer {
  const furniture = furnish(host);
  const context = furniture.canvas.getContext("webgl2", { alpha: true, antialias: true, preserveDrawingBuffer: true });
  if (!context) {
    furniture.refuse("This browser does not draw in 3D (WebGL 2 is missing or turned off). The numbers and the tables beside work without it.");
    return {
      setLimb() {}, setCut() {}, setFrame() {}, setBent() {}, select() {}, setCamera() {},
      dispose: () => furniture.remove(),
    };
  }
  return new Viewer(host, events, furniture, new WebGLRenderer({ canvas: furniture.canvas, context }));
}

class Viewer implements FrameViewer, Desk {
  readonly camera = new ViewCamera();
  frame: FrameGeometry = { id: "", pins: [], rods: [], clamps: [] };
  handles: Handle[] = [];
  selected: string | null = null;
  private limb: Limb | null = null;
  private cut: Cut | null = null;
  private bent: Bent | null = null;
  private isAnimated = false;
  private moving: { text: string; x: number; y: number } | null = null;
  private needsFit = true;
  private wasSection = false;
  private request = 0;
  private readonly shared = createShared();
  private readonly scene = new Scene();
  /** Everything drawn, in limb axes; mirrored for a left limb. */
  private readonly limbAxes = new Group();
  private readonly themes: ThemeReader;
  private readonly bone: Bone;
  private readonly skin: Skin;
  private readonly wounds: Wounds;
  private readonly cutPlane: CutPlane;
  private readonly pins: Pins;
  private readonly rods: Rods;
  private readonly clamps: Clamps;
  private readonly bentFrame: BentFrame;
  private readonly labels: LabelSheet;
  private readonly pen: Pen;
  private readonly pointer: PointerHands;
  private readonly keys: KeyHands;
  private readonly resize: ResizeObserver;
  private readonly stillness = matchMedia("(prefers-reduced-motion: reduce)");

  constructor(readonly host: HTMLElement, readonly events: ViewerEvents, private readonly furniture: Furniture, private readonly renderer: WebGLRenderer) {
    this.themes = new ThemeReader(host, () => this.themeChanged());
    const { theme } = this.themes, { shared } = this;
    this.bone = new Bone(shared, theme);
    this.skin = new Skin(shared, theme);
    this.wounds = new Wounds(shared, theme);
    this.cutPlane = new CutPlane(shared, theme);
    this.pins = new Pins(shared, theme);
    this.rods = new Rods(shared, theme);
    this.clamps = new Clamps(shared, theme);
    this.bentFrame = new BentFrame(shared, theme);
    this.limbAxes.add(...this.glyphs.map((g) => g.group));
    this.scene.add(this.limbAxes);
    this.labels = new LabelSheet(furniture.words);
    this.pen = new Pen(furniture.lines);
    this.pointer = new PointerHands(this);
    this.keys = new KeyHands(this, () => {
      const wasDragging = this.pointer.isDragging;
      if (wasDragging) this.pointer.cancel();
      return wasDragging;
    });
    renderer.setClearColor(0, 0);
    this.camera.set("front");
    this.resize = new ResizeObserver(() => this.resized());
    this.resize.observe(host);
    furniture.canvas.addEventListener("webglcontextrestored", this.draw);
    this.resized();
  }

  get ring(): number[][] {
    return this.bent ? [] : this.cutPlane.ring;
  }

  get cutLevelMm(): number | null {
    return this.cut?.levelMm ?? null;
  }

  setLimb(limb: Limb): void {
    this.limb = limb;
    this.camera.refresh(limb.side);
    this.limbAxes.scale.y = this.camera.mirror;
    this.bone.set(limb);
    this.bone.bend(this.bent);
    this.skin.set(limb.skin);
    this.wounds.set(limb.areas, limb.skin);
    this.cutPlane.set(this.cut, limb);
    this.needsFit = true;
    this.draw();
  }

  setCut(cut: Cut): void {
    this.cut = cut;
    this.cutPlane.set(cut, this.limb);
    if (this.isSection) this.placeParts();
    this.draw();
  }

  setFrame(frame: FrameGeometry, handles: Handle[]): void {
    if (frame.id !== this.frame.id) this.needsFit = true;
    this.frame = frame;
    this.handles = handles;
    if (this.selected !== null && !this.has(this.selected)) this.selected = null;
    this.placeParts();
    this.draw();
  }

  setBent(bent: Bent | null, animate: boolean): void {
    this.bent = bent;
    this.isAnimated = bent !== null && animate;
    this.bone.bend(bent);
    this.bentFrame.set(bent, this.frame);
    for (const glyph of [this.pins, this.rods, this.clamps]) glyph.isSolid = bent === null;
    this.draw();
  }

  select(part: string | null): void {
    if (part === this.selected) return;
    this.selected = part !== null && this.has(part) ? part : null;
    this.placeParts();
    this.draw();
  }

  setCamera(camera: string): void {
    if (!this.camera.set(camera)) return;
    this.needsFit = true;
    this.draw();
  }

  dispose(): void {
    cancelAnimationFrame(this.request);
    this.resize.disconnect();
    this.pointer.dispose();
    this.keys.dispose();
    this.themes.dispose();
    for (const glyph of this.glyphs) glyph.dispose();
    this.furniture.canvas.removeEventListener("webglcontextrestored", this.draw);
    this.renderer.dispose();
    this.renderer.forceContextLoss();
    this.labels.clear();
    this.furniture.remove();
  }

  choose(part: string | null): void {
    if (part === this.selected) return;
    this.select(part);
    this.say(part === null ? "" : spoken(this.frame, this.handles, part));
    this.events.selected(part);
  }

  chooseLevel(levelMm: number): void {
    if (!this.limb || !this.cut) return;
    const level = Math.round(Math.min(this.limb.lengthMm, Math.max(0, levelMm)));
    if (level === this.cut.levelMm) return;
    this.say(`Cut at ${level} mm`);
    this.events.levelChosen(level);
  }

  cameraMoved(isOver: boolean): void {
    this.draw();
    if (isOver) this.events.cameraChanged(this.camera.text);
  }

  preset(name: string): void {
    this.setCamera(name);
    this.events.cameraChanged(this.camera.text);
  }

  fit(): void {
    this.camera.zoom = 1;
    this.camera.panRight = this.camera.panUp = 0;
    this.needsFit = true;
    this.cameraMoved(true);
  }

  showMoving(text: string | null, x?: number, y?: number): void {
    const at = x === undefined || y === undefined ? this.anchor() : { x, y };
    this.moving = text === null ? null : { text, ...at };
    this.draw();
  }

  say(text: string): void {
    this.furniture.said.textContent = text;
  }

  private get glyphs() {
    return [this.bone, this.skin, this.wounds, this.cutPlane, this.pins, this.rods, this.clamps, this.bentFrame];
  }

  private get isSection(): boolean {
    return this.sectionMm !== null;
  }

  /** From the foot the limb is drawn as its section at the cut, unless it is bent. */
  private get sectionMm(): number | null {
    return this.camera.isFromFoot && this.cut && this.limb && !this.bent ? this.cut.levelMm : null;
  }

  private has(id: string): boolean {
    const is = (p: { id: string }) => p.id === id;
    return this.frame.pins.some(is) || this.frame.rods.some(is) || this.frame.clamps.some(is);
  }

  private anchor(): { x: number; y: number } {
    const { frame, selected } = this;
    const pin = frame.pins.find((p) => p.id === selected), rod = frame.rods.find((r) => r.id === selected);
    const clamp = frame.clamps.find((c) => c.id === selected);
    return this.camera.project(pin?.outer ?? rod?.from ?? clamp?.onRod ?? [0, 0, 0]);
  }

  private placeParts(): void {
    this.pins.set(this.frame.pins, this.selected, this.sectionMm);
    this.rods.set(this.frame.rods, this.selected);
    this.clamps.set(this.frame.clamps, this.frame.rods, this.selected);
  }

  private themeChanged(): void {
    this.themes.read();
    this.placeParts();
    this.draw();
  }

  private resized(): void {
    const { clientWidth: width, clientHeight: height } = this.host;
    if (width === 0 || height === 0) return;
    const ratio = Math.min(maxPixelRatio, devicePixelRatio || 1);
    this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(width, height, false);
    this.shared.viewport.value.set(width * ratio, height * ratio);
    this.shared.ratio.value = ratio;
    this.camera.width = width;
    this.camera.height = height;
    this.needsFit = true;
    // At once, because a canvas is blank after its size changed.
    this.render();
  }

  /** One drawing at the next frame, however many changes ask for it. */
  private readonly draw = (): void => {
    if (this.request === 0) this.request = requestAnimationFrame(this.render);
  };

  private readonly render = (time = performance.now()): void => {
    cancelAnimationFrame(this.request);
    this.request = 0;
    const { camera, limb } = this;
    if (this.needsFit) this.fitNow();
    camera.update();
    const swings = this.isAnimated && !this.stillness.matches;
    this.shared.bent.value = this.bent ? this.bent.scale * (swings ? (1 - Math.cos((2 * Math.PI * time) / swingMs)) / 2 : 1) : 0;
    const isSection = this.isSection;
    if (isSection !== this.wasSection) {
      this.wasSection = isSection;
      this.placeParts();
    }
    this.skin.look(camera.toward, isSection);
    this.bone.look(camera.toward, isSection);
    this.wounds.group.visible = !isSection && !this.bent;
    this.cutPlane.look(isSection, this.bent !== null);
    this.renderer.render(this.scene, camera.ortho);
    if (limb) this.annotate(limb);
    if (swings) this.draw();
  };

  private annotate(limb: Limb): void {
    const { camera, labels, pen, frame } = this;
    labels.begin();
    pen.begin();
    if (this.moving) {
      const { text, x, y } = this.moving;
      labels.add("moving", text, x + 14, y - 26, { kind: "moving", lean: 1, rank: 0, always: true });
    }
    if (this.bent) {
      const load = this.isAnimated && !this.stillness.matches ? ", load rising and falling" : "";
      labels.add("bent", `movement × ${number(this.bent.scale, 1)}${load}`, camera.width / 2, camera.height - 16, { kind: "bent", rank: 0, always: true });
    } else {
      drawDimensions(frame, limb, camera, labels, pen);
      lookAtParts(frame, this.moving ? null : this.selected, this.sectionMm, camera, labels, pen);
    }
    const free = freeSide(frame, camera);
    if (!this.bent) {
      if (!this.wasSection) this.wounds.label(camera, labels);
      this.cutPlane.label(camera, free, labels, pen);
    }
    drawLevels(limb, free, camera, labels);
    labels.end(camera.width, camera.height);
    pen.end();
  }

  private fitNow(): void {
    const { limb, camera, frame } = this;
    if (!limb) return;
    this.needsFit = false;
    const points: ArrayLike<number>[] = [];
    const levels = limb.skin.levelsMm;
    for (let i = 0; i < levels.length; i += Math.max(1, Math.floor(levels.length / 12))) points.push(...ringAt(limb.skin, levels[i]!, 24));
    points.push(...ringAt(limb.skin, levels.at(-1) ?? 0, 24));
    if (this.isSection) points.splice(0, points.length, ...this.cutPlane.rim);
    for (const p of frame.pins) points.push(p.tip, p.outer);
    for (const r of frame.rods) points.push(r.from, r.to);
    camera.fit(points, marginsFor(camera.width, camera.height));
  }
}

/** Room for the words beside the drawing, less on a small screen. */
function marginsFor(width: number, height: number): Margins {
  const side = Math.min(72, width * 0.12), end = Math.min(40, height * 0.05);
  return { left: side, right: side, top: end, bottom: end };
}
