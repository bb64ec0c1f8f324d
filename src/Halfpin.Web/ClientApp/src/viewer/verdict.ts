import type { Color } from "three";
import type { Verdict } from "./scene";
import type { Theme } from "./theme";

/** Outline of a part: the accent when it is selected, the colour of its verdict when that is no pass, else the given ink. */
export function outlineOf(verdict: Verdict, isSelected: boolean, theme: Theme, usual: Color): [ink: Color, widthPx: number] {
  if (isSelected) return [theme.accent, 3];
  if (verdict === "pass") return [usual, 1];
  return [verdict === "fail" ? theme.bad : theme.care, 2];
}

/** Sign that says the same without a colour. */
export const signs: Record<Verdict, string> = { pass: "", caution: "!", fail: "✕" };
