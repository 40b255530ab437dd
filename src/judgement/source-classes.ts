import { oscillatorClasses } from "../noise/index.ts";
import type { Known } from "../noise-model/index.ts";

/** Bounds of one kind of oscillator: the upper ends of what is typical. */
export type SourceClass = Required<Pick<Known, "floor" | "whiteFm">>;

/**
 * Kinds of oscillator, with the upper ends of their typical flicker floor and Allan deviation at 1 s as bounds.
 *
 * Source: of each class (`oscillatorClasses`).
 */
export const sourceClasses: Readonly<Record<string, SourceClass>> = Object.fromEntries(
  Object.entries(oscillatorClasses).map(([name, { floor, adev1s }]) => [
    name,
    { floor: floor[1], whiteFm: adev1s[1] },
  ]),
);
