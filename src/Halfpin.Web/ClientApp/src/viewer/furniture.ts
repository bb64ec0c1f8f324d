import { keysInWords } from "./keyboard";
import { addStyle } from "./style";

/** The elements of the view within its host. */
export interface Furniture {
  canvas: HTMLCanvasElement;
  lines: SVGSVGElement;
  words: HTMLElement;
  /** What a reader of the screen hears. */
  said: HTMLElement;
  /** Puts a sentence in the place of the drawing. */
  refuse(sentence: string): void;
  remove(): void;
}

let made = 0;

/** Makes the host a focusable drawing with its words; everything is taken back by remove. */
export function furnish(host: HTMLElement): Furniture {
  addStyle(host);
  const canvas = document.createElement("canvas");
  const lines = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  const words = document.createElement("div"), said = document.createElement("div"), keys = document.createElement("div");
  lines.setAttribute("class", "hp-lines");
  words.className = "hp-words";
  said.className = keys.className = "hp-said";
  said.setAttribute("aria-live", "polite");
  keys.id = `hp-keys-${++made}`;
  keys.textContent = keysInWords;
  for (const element of [canvas, lines, words]) element.setAttribute("aria-hidden", "true");
  const own = { tabindex: "0", role: "application", "aria-label": "Frame on the limb", "aria-describedby": keys.id };
  const before = Object.keys(own).map((name) => [name, host.getAttribute(name)] as const);
  for (const [name, value] of Object.entries(own)) if (name !== "aria-label" || !host.hasAttribute(name)) host.setAttribute(name, value);
  host.classList.add("hp-view");
  host.append(canvas, lines, words, said, keys);
  return {
    canvas, lines, words, said,
    refuse(sentence) {
      const note = document.createElement("p");
      note.className = "hp-none";
      note.textContent = sentence;
      canvas.replaceWith(note);
      keys.remove();
      host.removeAttribute("aria-describedby");
      host.removeAttribute("tabindex");
      host.setAttribute("role", "group");
    },
    remove() {
      host.querySelector(":scope > .hp-none")?.remove();
      for (const element of [canvas, lines, words, said, keys]) element.remove();
      host.classList.remove("hp-view", "on-part", "dragging", "turning");
      if (host.classList.length === 0) host.removeAttribute("class");
      for (const [name, value] of before) value === null ? host.removeAttribute(name) : host.setAttribute(name, value);
    },
  };
}
