import { CylinderGeometry, Group } from "three";
import { Ink } from "./ink";
import { Instances, leanOut } from "./instances";
import type { Shared } from "./paper";
import { liesIn } from "./parts";
import type { Pin } from "./scene";
import type { Theme } from "./theme";
import { outlineOf } from "./verdict";

/** A cylinder of unit width and length along z. */
export function unitCylinder(): CylinderGeometry {
  const shape = new CylinderGeometry(0.5, 0.5, 1, 20, 1);
  shape.rotateX(Math.PI / 2);
  leanOut(shape);
  return shape;
}

/** Half-pins; what the bone hides of them is dashed, as a hidden edge is, and so are those before or behind a section. */
export class Pins {
  readonly group = new Group();
  private readonly bodies: Instances;
  private readonly hidden: Ink;
  private readonly elsewhere: Ink;

  constructor(shared: Shared, private readonly theme: Theme) {
    this.bodies = new Instances(shared, unitCylinder());
    this.hidden = new Ink(shared, theme.hiddenEdge, { widthPx: 1.2, dash: [5, 3.5], shows: "behindBone" });
    this.elsewhere = new Ink(shared, theme.soft, { widthPx: 1, dash: [4, 3], shows: "everywhere" });
    this.group.add(this.bodies.group, this.hidden.mesh, this.elsewhere.mesh);
  }

  /** Places the pins; with a section given, those away from its level are drawn as outlines. */
  set(pins: Pin[], selected: string | null, sectionMm: number | null): void {
    this.bodies.count = pins.length;
    this.hidden.clear();
    this.elsewhere.clear();
    for (let i = 0; i < pins.length; i++) {
      const pin = pins[i]!;
      this.bodies.place(i, pin.tip, pin.outer, 0, pin.diameterMm, pin.diameterMm, null);
      const [ink, width] = outlineOf(pin.verdict, pin.id === selected, this.theme, this.theme.ink);
      this.bodies.paint(i, this.theme.steel, ink, width);
      if (liesIn(sectionMm, pin) || pin.id === selected) {
        this.hidden.segment(pin.tip, pin.entry);
      } else {
        this.bodies.hide(i);
        drawEdges(pin, this.elsewhere);
      }
    }
    this.bodies.flush();
    this.hidden.flush();
    this.elsewhere.flush();
  }

  set isSolid(isSolid: boolean) {
    this.bodies.group.visible = isSolid;
    this.hidden.mesh.visible = this.elsewhere.mesh.visible = isSolid;
  }

  dispose(): void {
    this.bodies.dispose();
    this.hidden.dispose();
    this.elsewhere.dispose();
  }
}

/** Both edges of a pin as seen along the bone. */
function drawEdges(pin: Pin, ink: Ink): void {
  const x = pin.outer[0] - pin.tip[0], y = pin.outer[1] - pin.tip[1], half = pin.diameterMm / 2 / (Math.hypot(x, y) || 1);
  for (const side of [-half, half]) {
    ink.stroke(pin.tip[0] - side * y, pin.tip[1] + side * x, pin.tip[2], pin.outer[0] - side * y, pin.outer[1] + side * x, pin.outer[2]);
  }
}
