/** How a word on the drawing looks and how it may give way to others. */
export interface LabelOptions {
  kind?: string;
  /** Lower ranks are placed first; a later word that finds no room is left out. */
  rank?: number;
  /** May move round its point when its own place is taken; otherwise it stands on it or not at all. */
  around?: boolean;
  /** Stands beside its point rather than on it: the direction to lean to, −1 left, 1 right. */
  lean?: -1 | 0 | 1;
  /** Placed whatever lies under it. */
  always?: boolean;
  /** A sign before the words, told apart by its shape. */
  sign?: "caution" | "fail" | "";
  /** Called with the answer: whether there was room. */
  placed?: (isPlaced: boolean) => void;
}

interface Word extends LabelOptions { key: string; text: string; x: number; y: number }
interface Card { element: HTMLElement; text: string; className: string; width: number; height: number }
interface Box { left: number; top: number; right: number; bottom: number }

const gapPx = 6;

/** Words over the drawing, in HTML, laid so that none covers another. */
export class LabelSheet {
  private readonly cards = new Map<string, Card>();
  private readonly words: Word[] = [];
  private readonly taken: Box[] = [];

  constructor(private readonly layer: HTMLElement) {}

  begin(): void {
    this.words.length = 0;
    this.taken.length = 0;
  }

  add(key: string, text: string, x: number, y: number, options: LabelOptions = {}): void {
    this.words.push({ key, text, x, y, ...options });
  }

  /** Keeps words off a place of the screen. */
  block(left: number, top: number, right: number, bottom: number): void {
    this.taken.push({ left, top, right, bottom });
  }

  end(width: number, height: number): void {
    this.words.sort((a, b) => (a.rank ?? 5) - (b.rank ?? 5));
    const shown = new Set<string>();
    for (const word of this.words) {
      const card = this.card(word);
      const place = places(word, card).find((p) => word.always || (fits(p, card, width, height) && this.isFree(p, card)));
      word.placed?.(place !== undefined);
      if (!place) continue;
      shown.add(word.key);
      this.taken.push({ left: place[0] - 2, top: place[1] - 1, right: place[0] + card.width + 2, bottom: place[1] + card.height + 1 });
      card.element.style.transform = `translate(${Math.round(place[0])}px, ${Math.round(place[1])}px)`;
      card.element.style.visibility = "visible";
    }
    for (const [key, card] of this.cards) if (!shown.has(key)) card.element.style.visibility = "hidden";
    this.prune(shown);
  }

  clear(): void {
    for (const card of this.cards.values()) card.element.remove();
    this.cards.clear();
  }

  private prune(shown: Set<string>): void {
    if (this.cards.size < 200) return;
    for (const [key, card] of this.cards) {
      if (shown.has(key)) continue;
      card.element.remove();
      this.cards.delete(key);
    }
  }

  private card(word: Word): Card {
    const className = `hp-word ${word.kind ?? ""} ${word.sign ?? ""}`;
    let card = this.cards.get(word.key);
    if (!card) {
      const element = document.createElement("span");
      element.style.visibility = "hidden";
      this.layer.append(element);
      card = { element, text: "", className: "", width: 0, height: 0 };
      this.cards.set(word.key, card);
    }
    if (card.text !== word.text || card.className !== className) {
      card.element.className = card.className = className;
      card.element.textContent = card.text = word.text;
      card.width = card.element.offsetWidth;
      card.height = card.element.offsetHeight;
    }
    return card;
  }

  private isFree([x, y]: [number, number], card: Card): boolean {
    return this.taken.every((b) => x > b.right || x + card.width < b.left || y > b.bottom || y + card.height < b.top);
  }
}

function places(word: Word, card: Card): [x: number, y: number][] {
  const { x, y } = word, w = card.width, h = card.height;
  const on: [number, number] = [x - w / 2, y - h / 2], right: [number, number] = [x + gapPx, y - h / 2], left: [number, number] = [x - w - gapPx, y - h / 2];
  const own = word.lean === 1 ? right : word.lean === -1 ? left : on;
  if (!word.around) return [own];
  const above: [number, number] = [x - w / 2, y - h - gapPx], below: [number, number] = [x - w / 2, y + gapPx];
  return [own, right, left, above, below, [x + gapPx, y - h - gapPx], [x - w - gapPx, y - h - gapPx], [x + gapPx, y + gapPx], [x - w - gapPx, y + gapPx]];
}

function fits([x, y]: [number, number], card: Card, width: number, height: number): boolean {
  return x >= 2 && y >= 2 && x + card.width <= width - 2 && y + card.height <= height - 2;
}
