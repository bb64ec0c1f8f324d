import { pinLevelMm } from "./parts";
import type { FrameGeometry, Handle } from "./scene";

/** A number as the page's language writes it. */
export function number(value: number, digits: number): string {
  return new Intl.NumberFormat(document.documentElement.lang || undefined, { maximumFractionDigits: digits, useGrouping: false }).format(value);
}

/** A handle's number with its unit. */
export function valueOf(handle: Handle, value: number): string {
  const digits = handle.step >= 1 && Number.isInteger(value) ? 0 : 1;
  return handle.unit === "°" ? `${number(value, digits)}°` : `${number(value, digits)} ${handle.unit}`;
}

/** What a part is, in words. */
export function nameOf(frame: FrameGeometry, id: string): string {
  if (frame.pins.some((p) => p.id === id)) return `pin ${id}`;
  const rod = frame.rods.find((r) => r.id === id);
  if (rod) return `${rod.link ? "link" : "rod"} ${id}`;
  return `clamp ${id}`;
}

/** Where a part stands, short enough for the drawing. */
export function levelOf(frame: FrameGeometry, id: string): string {
  const pin = frame.pins.find((p) => p.id === id);
  if (pin) return `level ${number(pinLevelMm(pin), 0)} mm`;
  const rod = frame.rods.find((r) => r.id === id);
  if (rod) {
    const [a, b] = [-rod.from[2], -rod.to[2]].sort((x, y) => x - y) as [number, number];
    return b - a < 1 ? `level ${number(a, 0)} mm` : `levels ${number(a, 0)} to ${number(b, 0)} mm`;
  }
  const clamp = frame.clamps.find((c) => c.id === id);
  return clamp ? `level ${number(-clamp.onPin[2], 0)} mm${clamp.state === "loose" ? ", loose" : ""}` : "";
}

/** The selected part for a reader of the screen. */
export function spoken(frame: FrameGeometry, handles: Handle[], id: string): string {
  const verdict = [...frame.pins, ...frame.rods, ...frame.clamps].find((p) => p.id === id)?.verdict;
  const values = handles.filter((h) => h.part === id).map((h) => `${h.label} ${valueOf(h, h.value)}`);
  return [nameOf(frame, id), levelOf(frame, id), ...values, verdict === "fail" ? "fails a check" : verdict === "caution" ? "caution" : ""].filter(Boolean).join(", ");
}
