import { Color } from "three";

const light = {
  paper: "#f6f4ee", sheet: "#fffdf8", ink: "#1d2733", soft: "#5b6673", line: "#d9d4c7", accent: "#0f6b6b", ok: "#2c6e49", care: "#9a6700",
  bad: "#a4262c", bone: "#e9dfc6", boneEdge: "#8a7b58", steel: "#5f6b78", carbon: "#22282f", win: "#cfe3d4", ghost: "#b9c0c7",
};
const dark: typeof light = {
  paper: "#14181d", sheet: "#1b2027", ink: "#e8ebee", soft: "#9aa5b1", line: "#323a44", accent: "#5cc2b8", ok: "#7cc79a", care: "#e0b04f",
  bad: "#f08a86", bone: "#b9ac8b", boneEdge: "#6c6148", steel: "#aab4bf", carbon: "#dde2e7", win: "#24443a", ghost: "#4c5661",
};
/** Colours the user's system prescribes take the place of ours, so that shape and line style alone must tell things apart. */
const forced: typeof light = {
  paper: "Canvas", sheet: "Canvas", ink: "CanvasText", soft: "CanvasText", line: "GrayText", accent: "Highlight", ok: "CanvasText",
  care: "CanvasText", bad: "CanvasText", bone: "Canvas", boneEdge: "CanvasText", steel: "Canvas", carbon: "CanvasText", win: "Canvas", ghost: "GrayText",
};

type Ink = keyof typeof light | "cutBone" | "hiddenEdge";

/** Colours of the drawing, in the sRGB values the screen shows; the objects stay the same when the colours change, so that materials may hold them. */
export type Theme = Readonly<Record<Ink, Color>>;

/** The custom properties of the page where it has them, else the same palette as a default. */
export class ThemeReader {
  readonly theme: Theme;
  private readonly probe: HTMLElement;
  private readonly pixel: CanvasRenderingContext2D | null;
  private readonly queries = ["(prefers-color-scheme: dark)", "(forced-colors: active)"].map((q) => matchMedia(q));
  private readonly observer: MutationObserver;

  constructor(host: HTMLElement, private readonly changed: () => void) {
    this.probe = document.createElement("span");
    this.probe.hidden = true;
    this.probe.style.setProperty("forced-color-adjust", "none");
    host.append(this.probe);
    this.theme = Object.fromEntries([...Object.keys(light), "cutBone", "hiddenEdge"].map((name) => [name, new Color()])) as Record<Ink, Color>;
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 1;
    this.pixel = canvas.getContext("2d", { willReadFrequently: true });
    for (const q of this.queries) q.addEventListener("change", changed);
    this.observer = new MutationObserver(changed);
    this.observer.observe(document.documentElement, { attributes: true, attributeFilter: ["class", "style", "data-theme"] });
    this.read();
  }

  /** Reads the page's colours again. */
  read(): void {
    const isForced = this.queries[1]!.matches;
    const fallback = isForced ? forced : this.queries[0]!.matches ? dark : light;
    for (const name of Object.keys(light) as (keyof typeof light)[]) {
      const property = "--" + name.replace(/[A-Z]/g, (c) => "-" + c.toLowerCase());
      this.paint(this.theme[name], isForced ? fallback[name] : `var(${property}, ${fallback[name]})`);
    }
    const { theme } = this;
    const brightness = (c: Color) => c.r + c.g + c.b;
    // Freshly cut bone is lighter than its surface on any ground.
    theme.cutBone.copy(theme.bone).lerp(brightness(theme.sheet) > brightness(theme.ink) ? theme.sheet : theme.ink, isForced ? 0 : 0.6);
    theme.hiddenEdge.copy(theme.bone).lerp(brightness(theme.ink) < brightness(theme.bone) ? theme.ink : theme.paper, isForced ? 1 : 0.75);
  }

  dispose(): void {
    for (const q of this.queries) q.removeEventListener("change", this.changed);
    this.observer.disconnect();
    this.probe.remove();
  }

  /** Painted on one pixel, because the page may name its colours in any notation. */
  private paint(colour: Color, css: string): void {
    this.probe.style.color = css;
    if (!this.pixel) return;
    this.pixel.clearRect(0, 0, 1, 1);
    this.pixel.fillStyle = getComputedStyle(this.probe).color;
    this.pixel.fillRect(0, 0, 1, 1);
    const [r = 0, g = 0, b = 0] = this.pixel.getImageData(0, 0, 1, 1).data;
    colour.setRGB(r / 255, g / 255, b / 255);
  }
}
