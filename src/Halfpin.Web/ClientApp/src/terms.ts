// Explanations of technical words: shown beside a word that is pointed at, focused or tapped; Escape closes them.

const openAfterMs = 160, closeAfterMs = 220, gapPx = 6, edgePx = 8;

/** The one explanation on the screen. It stands above other things, never over its word, and may be pointed at to read on. */
class Explanation {
  private box: HTMLElement | null = null;
  private word: HTMLElement | null = null;
  private pinned = false;
  private timer = 0;

  get isOpen(): boolean {
    return this.word !== null;
  }

  isOf(word: HTMLElement): boolean {
    return this.word === word;
  }

  showSoon(word: HTMLElement): void {
    clearTimeout(this.timer);
    if (!this.isOf(word)) this.timer = window.setTimeout(() => this.show(word, false), openAfterMs);
  }

  hideSoon(): void {
    clearTimeout(this.timer);
    if (!this.pinned) this.timer = window.setTimeout(() => this.hide(), closeAfterMs);
  }

  stay(): void {
    clearTimeout(this.timer);
  }

  show(word: HTMLElement, pinned: boolean): void {
    clearTimeout(this.timer);
    const words = document.getElementById(word.getAttribute("aria-describedby") ?? "")?.textContent;
    if (!words || !word.isConnected) return this.hide();
    const box = this.element();
    this.word = word;
    this.pinned = pinned;
    box.textContent = words;
    if (!box.matches(":popover-open")) box.showPopover();
    this.place();
  }

  hide(): void {
    clearTimeout(this.timer);
    this.word = null;
    this.pinned = false;
    if (this.box?.matches(":popover-open")) this.box.hidePopover();
  }

  toggle(word: HTMLElement): void {
    if (this.isOf(word) && this.pinned) this.hide();
    else this.show(word, true);
  }

  /** Above the word, else below it; away from the edges and the note at the foot of the page. */
  place(): void {
    if (!this.word || !this.box) return;
    const lines = this.word.getClientRects(), first = lines[0], last = lines[lines.length - 1];
    if (!this.word.isConnected || !first || !last || last.bottom < 0 || first.top > innerHeight) return this.hide();
    const { width, height } = this.box.getBoundingClientRect();
    const foot = document.querySelector(".safety")?.getBoundingClientRect().top ?? innerHeight;
    const above = first.top - gapPx - height, below = last.bottom + gapPx;
    const top = above >= edgePx || below + height > Math.min(foot, innerHeight) - edgePx ? above : below;
    this.box.style.left = `${Math.max(edgePx, Math.min(first.left, document.documentElement.clientWidth - width - edgePx))}px`;
    this.box.style.top = `${top}px`;
  }

  private element(): HTMLElement {
    if (!this.box?.isConnected) {
      this.box = document.createElement("div");
      this.box.className = "explanation";
      this.box.setAttribute("role", "tooltip");
      this.box.popover = "manual";
      this.box.addEventListener("pointerenter", () => this.stay());
      this.box.addEventListener("pointerleave", () => this.hideSoon());
      document.body.append(this.box);
    }
    return this.box;
  }
}

const wordOf = (target: EventTarget | null): HTMLElement | null =>
  target instanceof Element ? target.closest<HTMLElement>("[data-term]") : null;

/** Watches the words of the page, those drawn later among them. */
export function explainTerms(): void {
  const shown = new Explanation();
  document.addEventListener("pointerover", event => {
    const word = wordOf(event.target);
    if (word && event.pointerType !== "touch") shown.showSoon(word);
  });
  document.addEventListener("pointerout", event => {
    const word = wordOf(event.target);
    if (word && event.pointerType !== "touch" && wordOf(event.relatedTarget) !== word) shown.hideSoon();
  });
  document.addEventListener("focusin", event => {
    const word = wordOf(event.target);
    if (word?.matches(":focus-visible")) shown.show(word, false);
  });
  document.addEventListener("focusout", event => {
    const word = wordOf(event.target);
    if (word && shown.isOf(word)) shown.hide();
  });
  document.addEventListener("click", event => {
    const word = wordOf(event.target);
    if (word) {
      // A word in a label explains itself and leaves the field alone.
      event.preventDefault();
      shown.toggle(word);
    } else if (shown.isOpen && !(event.target instanceof Element && event.target.closest(".explanation"))) {
      shown.hide();
    }
  });
  document.addEventListener("keydown", event => {
    const word = wordOf(event.target);
    if (event.key === "Escape" && shown.isOpen) {
      shown.hide();
    } else if (word && (event.key === "Enter" || event.key === " ")) {
      event.preventDefault();
      shown.toggle(word);
    }
  });
  for (const name of ["scroll", "resize"]) window.addEventListener(name, () => shown.place(), { capture: true, passive: true });
}
