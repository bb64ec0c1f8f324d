import { Group } from "three";
import { Contour } from "./contour";
import { Ink } from "./ink";
import type { Shared } from "./paper";
import type { Surface, Vec } from "./scene";
import { gridBetween, normalAt, ringAt } from "./surface";
import type { Theme } from "./theme";

/** Distance of the lines round the skin. */
export const ringStepMm = 40;

/** The skin as an outline and level lines, so that nothing lies in a fog behind it. */
export class Skin {
  readonly group = new Group();
  private readonly outline: Contour;
  private readonly rings: Ink;

  constructor(shared: Shared, theme: Theme) {
    this.outline = new Contour(new Ink(shared, theme.soft, { widthPx: 1, opacity: 0.8 }));
    this.rings = new Ink(shared, theme.soft, { widthPx: 1, opacity: 0.32, frontOnly: true });
    this.group.add(this.outline.ink.mesh, this.rings.mesh);
  }

  set(skin: Surface): void {
    const from = skin.levelsMm[0] ?? 0, to = skin.levelsMm.at(-1) ?? 0;
    this.outline.set([gridBetween(skin, () => from, () => to, 64, 8)]);
    this.rings.clear();
    for (let level = Math.ceil(from / ringStepMm) * ringStepMm; level <= to; level += ringStepMm) {
      this.rings.polyline(ringAt(skin, level, 72), (i) => normalAt(skin, level, i * 5 - 2.5));
    }
    this.rings.flush();
  }

  look(toward: Vec, isSection: boolean): void {
    this.group.visible = !isSection;
    this.outline.look(toward);
  }

  dispose(): void {
    this.outline.ink.dispose();
    this.rings.dispose();
  }
}
