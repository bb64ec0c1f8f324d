// Keeps what is being typed in a form until the field is left, so that a crash or a reload does not lose it: on this machine, in this browser.

interface Kept { typed: string; was: string }

const prefix = "halfpin-typed:";
const fields = "main .f-field input:not([type=radio]):not([type=checkbox]):not([type=file]), main .f-field textarea, main .f-add input, main .drop textarea";

const read = (path: string): Record<string, Kept> => {
  try {
    return JSON.parse(localStorage.getItem(prefix + path) ?? "{}") as Record<string, Kept>;
  } catch {
    return {};
  }
};

const write = (path: string, kept: Record<string, Kept>): void => {
  try {
    if (Object.keys(kept).length > 0) localStorage.setItem(prefix + path, JSON.stringify(kept));
    else localStorage.removeItem(prefix + path);
  } catch {
    // A browser that keeps nothing: what is typed is lost with the page, as it would be anyway.
  }
};

const forget = (path: string, ids: string[]): void => write(path, Object.fromEntries(Object.entries(read(path)).filter(([id]) => !ids.includes(id))));

type Field = HTMLInputElement | HTMLTextAreaElement;
const fieldOf = (target: EventTarget | null): Field | null =>
  target instanceof Element && target.id && target.matches(fields) ? target as Field : null;

const nameOf = (field: Field): string => (field.labels?.[0]?.textContent ?? field.getAttribute("aria-label") ?? field.id).trim();

const button = (words: string, isMain: boolean, pressed: () => void): HTMLButtonElement => {
  const made = document.createElement("button");
  made.className = isMain ? "button main" : "button";
  made.textContent = words;
  made.addEventListener("click", pressed);
  return made;
};

/** Offers what was typed on a page before it was lost; nothing is taken by itself. */
function offer(path: string): HTMLElement | null {
  const kept = read(path);
  const found = Object.entries(kept).flatMap(([id, { typed, was }]) => {
    const field = document.getElementById(id) as Field | null;
    return field && field.matches(fields) && field.value === was && typed !== was ? [{ id, field, typed }] : [];
  });
  forget(path, Object.keys(kept).filter(id => !found.some(f => f.id === id)));
  if (found.length === 0) return null;
  const box = document.createElement("section"), words = document.createElement("p");
  box.className = "typed-before";
  box.setAttribute("aria-label", "Typed before and not taken");
  words.setAttribute("role", "status");
  words.textContent = `Typed here before and not yet taken: ${found.map(f => `${nameOf(f.field)} “${f.typed.length > 60 ? f.typed.slice(0, 60) + "…" : f.typed}”`).join("; ")}.`;
  const end = (): void => {
    forget(path, found.map(f => f.id));
    box.remove();
  };
  box.append(words,
    button(found.length === 1 ? "Take it" : "Take them", true, () => {
      end();
      for (const { field, typed } of found) {
        field.value = typed;
        field.dispatchEvent(new Event("change", { bubbles: true }));
      }
    }),
    button(found.length === 1 ? "Forget it" : "Forget them", false, end));
  document.body.append(box);
  return box;
}

/** Watches the forms of the works. */
export function keepTyped(): void {
  const before = new WeakMap<Field, string>();
  let offeredOn = "", box: HTMLElement | null = null;
  document.addEventListener("focusin", event => {
    const field = fieldOf(event.target);
    if (field) before.set(field, field.value);
  });
  document.addEventListener("input", event => {
    const field = fieldOf(event.target);
    if (field) write(location.pathname, { ...read(location.pathname), [field.id]: { typed: field.value, was: before.get(field) ?? field.defaultValue } });
  });
  document.addEventListener("change", event => {
    const field = fieldOf(event.target);
    if (field) forget(location.pathname, [field.id]);
  }, true);
  new MutationObserver(() => {
    if (location.pathname !== offeredOn && document.querySelector("[data-ready]")) {
      box?.remove();
      offeredOn = location.pathname;
      box = offer(offeredOn);
    }
  }).observe(document.documentElement, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-ready"] });
}
