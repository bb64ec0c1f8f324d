const svg = "http://www.w3.org/2000/svg";

/** Thin lines over the drawing, one path for each look. */
export class Pen {
  private readonly paths = new Map<string, { element: SVGPathElement; strokes: string[]; drawn: string }>();

  constructor(private readonly layer: SVGSVGElement) {}

  begin(): void {
    for (const path of this.paths.values()) path.strokes.length = 0;
  }

  add(look: string, stroke: string): void {
    let path = this.paths.get(look);
    if (!path) {
      const element = document.createElementNS(svg, "path");
      element.setAttribute("class", look);
      this.layer.append(element);
      this.paths.set(look, (path = { element, strokes: [], drawn: "" }));
    }
    path.strokes.push(stroke);
  }

  end(): void {
    for (const path of this.paths.values()) {
      const d = path.strokes.join("");
      if (d !== path.drawn) path.element.setAttribute("d", (path.drawn = d));
    }
  }
}
