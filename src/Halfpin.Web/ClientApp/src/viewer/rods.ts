import { Group } from "three";
import { Instances } from "./instances";
import { unitCylinder } from "./pins";
import type { Shared } from "./paper";
import type { Rod } from "./scene";
import type { Theme } from "./theme";
import { outlineOf } from "./verdict";

/** Rods and links: dark when of carbon fibre, else of steel. */
export class Rods {
  readonly group = new Group();
  private readonly bodies: Instances;

  constructor(shared: Shared, private readonly theme: Theme) {
    this.bodies = new Instances(shared, unitCylinder());
    this.group.add(this.bodies.group);
  }

  set(rods: Rod[], selected: string | null): void {
    this.bodies.count = rods.length;
    for (let i = 0; i < rods.length; i++) {
      const rod = rods[i]!;
      this.bodies.place(i, rod.from, rod.to, 0, rod.diameterMm, rod.diameterMm, null);
      const [ink, width] = outlineOf(rod.verdict, rod.id === selected, this.theme, rod.carbon ? this.theme.carbon : this.theme.ink);
      this.bodies.paint(i, rod.carbon ? this.theme.carbon : this.theme.steel, ink, width);
    }
    this.bodies.flush();
  }

  set isSolid(isSolid: boolean) {
    this.bodies.group.visible = isSolid;
  }

  dispose(): void {
    this.bodies.dispose();
  }
}
