import { CylinderGeometry, Group } from "three";
import { Ink } from "./ink";
import { Instances } from "./instances";
import type { Shared } from "./paper";
import type { Pin } from "./scene";
import type { Theme } from "./theme";
import { outlineOf } from "./verdict";

/** A cylinder of unit width and length along z. */
export function unitCylinder(): CylinderGeometry {
  const shape = new CylinderGeometry(0.5, 0.5, 1, 20, 1);
  shape.rotateX(Math.PI / 2);
  return shape;
}

/** Half-pins; what the bone hides of them is dashed, as a hidden edge is. */
export class Pins {
  readonly group = new Group();
  private readonly bodies: Instances;
  private readonly hidden: Ink;

  constructor(shared: Shared, private readonly theme: Theme) {
    this.bodies = new Instances(shared, unitCylinder());
    this.hidden = new Ink(shared, theme.ink, { widthPx: 1.2, opacity: 0.7, dash: [5, 3.5], shows: "behind" });
    this.group.add(this.bodies.group, this.hidden.mesh);
  }

  set(pins: Pin[], selected: string | null): void {
    this.bodies.count = pins.length;
    this.hidden.clear();
    for (let i = 0; i < pins.length; i++) {
      const pin = pins[i]!;
      this.bodies.place(i, pin.tip, pin.outer, 0, pin.diameterMm, pin.diameterMm, null);
      const [ink, width] = outlineOf(pin.verdict, pin.id === selected, this.theme, this.theme.ink);
      this.bodies.paint(i, this.theme.steel, ink, width);
      this.hidden.segment(pin.tip, pin.entry);
    }
    this.bodies.flush();
    this.hidden.flush();
  }

  set isSolid(isSolid: boolean) {
    this.bodies.group.visible = isSolid;
    this.hidden.mesh.visible = isSolid;
  }

  dispose(): void {
    this.bodies.dispose();
    this.hidden.dispose();
  }
}
