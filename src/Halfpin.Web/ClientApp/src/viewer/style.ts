/** Look of the words and lines over the drawing; a constructed sheet, which a strict content policy allows. */
const css = `
:where(.hp-view){position:relative}
.hp-view{overflow:hidden;touch-action:none;user-select:none;-webkit-user-select:none;outline:none;cursor:grab}
.hp-view.on-part{cursor:pointer}.hp-view.turning,.hp-view.dragging{cursor:grabbing}
.hp-view>canvas,.hp-view>.hp-lines,.hp-view>.hp-words{position:absolute;inset:0;width:100%;height:100%;display:block}
.hp-view>.hp-lines,.hp-view>.hp-words{pointer-events:none;overflow:hidden}
.hp-view:focus-visible::after{content:"";position:absolute;inset:2px;border:2px solid var(--accent,#0f6b6b);border-radius:8px;pointer-events:none}
.hp-words{font:12px/16px var(--f,system-ui,sans-serif);font-variant-numeric:tabular-nums;color:var(--ink,#1d2733)}
.hp-word{position:absolute;left:0;top:0;white-space:nowrap;padding:0 3px;border-radius:3px;background:var(--paper,#f6f4ee)}
.hp-word.dim{color:var(--ink,#1d2733)}
.hp-word.scale{color:var(--soft,#5b6673);padding:0 2px}
.hp-word.wound{color:var(--bad,#a4262c)}.hp-word.incision,.hp-word.cut{color:var(--accent,#0f6b6b)}
.hp-word.zone,.hp-word.structure{color:var(--soft,#5b6673)}
.hp-word.zone{max-width:176px;white-space:normal;width:max-content}
.hp-word.preferred,.hp-word.safe{color:var(--ok,#2c6e49)}.hp-word.caution{color:var(--care,#9a6700)}.hp-word.avoid,.hp-word.fail{color:var(--bad,#a4262c)}
.hp-word.sign{padding:0 5px;text-align:center;font-weight:700;border:1.5px solid currentColor;border-radius:9px;background:var(--sheet,#fffdf8)}
.hp-word.sign.fail{border-radius:3px}
.hp-word.chosen{color:var(--accent,#0f6b6b);font-weight:600;background:var(--sheet,#fffdf8)}
.hp-word.moving{padding:3px 8px;font-size:14px;line-height:18px;font-weight:600;color:var(--ink,#1d2733);background:var(--sheet,#fffdf8);border:1.5px solid var(--accent,#0f6b6b);border-radius:6px}
.hp-word.bent{color:var(--ink,#1d2733);background:var(--sheet,#fffdf8);border:1px solid var(--line,#d9d4c7);border-radius:6px;padding:3px 8px}
.hp-lines path{fill:none;stroke:var(--soft,#5b6673);stroke-width:1}
.hp-lines .dim.tick{stroke:var(--ink,#1d2733);stroke-width:1.5}
.hp-lines .chosen{stroke:var(--accent,#0f6b6b)}
.hp-lines .structure{stroke:var(--ink,#1d2733);fill:var(--paper,#f6f4ee);stroke-width:1.2}
.hp-lines .structure.artery{fill:var(--ink,#1d2733)}.hp-lines .structure.tendon{fill:var(--soft,#5b6673)}
.hp-said{position:absolute;width:1px;height:1px;margin:-1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.hp-none{position:absolute;inset:0;display:grid;place-items:center;padding:24px;text-align:center;font-size:14px}
@media (forced-colors:active){.hp-word{background:Canvas;color:CanvasText;border-color:CanvasText}.hp-word.chosen,.hp-word.moving{color:Highlight;border-color:Highlight}
.hp-lines path{stroke:CanvasText}.hp-lines .chosen{stroke:Highlight}.hp-view:focus-visible::after{border-color:Highlight}}
`;

/** Adds the sheet to the document, or to the shadow tree the host stands in, once. */
export function addStyle(host: HTMLElement): void {
  const root = host.getRootNode();
  if (!(root instanceof Document || root instanceof ShadowRoot)) return;
  if (root.adoptedStyleSheets.some((s) => sheets.has(s))) return;
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(css);
  sheets.add(sheet);
  root.adoptedStyleSheets.push(sheet);
}

const sheets = new WeakSet<CSSStyleSheet>();
