import type { Known } from "../noise-model/index.ts";

/** Bounds of one kind of oscillator: the upper ends of what is typical. */
export type SourceClass = Required<Pick<Known, "floor" | "whiteFm">>;

/**
 * Kinds of oscillator, with the upper ends of their typical flicker floor and Allan deviation at 1 s as bounds.
 *
 * Source: from memory, no published source opened, but the kinds: Vig, Introduction to Quartz Frequency Standards (1992);
 * Lombardi, NCSLI Measure 3 (3), 56 (2008) for steered quartz. Check the data sheet.
 */
export const sourceClasses: Readonly<Record<string, SourceClass>> = {
  "watch-crystal": { floor: 3e-10, whiteFm: 1e-9 },
  quartz: { floor: 1e-10, whiteFm: 1e-9 },
  tcxo: { floor: 1e-9, whiteFm: 1e-9 },
  ocxo: { floor: 1e-11, whiteFm: 1e-12 },
  rubidium: { floor: 1e-12, whiteFm: 3e-11 },
  caesium: { floor: 1e-13, whiteFm: 5e-11 },
  "steered-quartz": { floor: 1e-11, whiteFm: 1e-11 },
};
