import { type Derived, type KeyPath, valueAt } from "../keys/index.ts";
import { type OscillatorClass, oscillatorClasses, typicalOf } from "../noise/index.ts";
import { knownKeys } from "./known-keys.ts";
import { scenarioSchema } from "./schema.ts";

/** Where oscillators stand in a scenario. */
const oscillators: readonly KeyPath[] = [
  ["reference"],
  ["synthesizer"],
  ["receiver", "fallback"],
  ["counter", "timebase"],
];

type Section = Readonly<Record<string, unknown>>;

const isSection = (value: unknown): value is Section =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What a class says of keys of an oscillator's section. */
function typicalKeys(row: OscillatorClass): Section {
  return {
    uncertainty: row.accuracy,
    aging_per_day: Number((typicalOf(row.agingPerYear) / 365.25).toPrecision(3)),
    temperature: row.temperature,
    noise: { white_fm_adev_1s: typicalOf(row.adev1s), flicker_fm_adev: typicalOf(row.floor) },
  };
}

/**
 * Gives oscillators that are `like` a class the typical sizes of it, where their sections leave keys open.
 * A noise section with levels `h` or `phase_noise` stands alone.
 *
 * @param value - what the file says, overrides applied; not changed
 * @returns the same with the keys filled in, and a note of each
 *
 * Source: of each class (`oscillatorClasses`).
 */
export function fillClasses(value: unknown): { filled: unknown; derived: readonly Derived[] } {
  const derived: Derived[] = [];
  const fill = (typical: Section, written: unknown, path: KeyPath, from: string): unknown => {
    if (written !== undefined && !isSection(written)) return written;
    if (valueAt(written, "h") !== undefined || valueAt(written, "phase_noise") !== undefined)
      return written;
    const known = knownKeys(scenarioSchema, value, path);
    const entries = Object.entries(typical).filter(([key]) => known.includes(key));
    const added = entries.map(([key, size]): [string, unknown] => {
      const here = [...path, key];
      if (isSection(size)) return [key, fill(size, written?.[key], here, from)];
      if (written?.[key] !== undefined) return [key, written[key]];
      if (size !== 0) derived.push({ path: here.join("."), value: Number(size), from });
      return [key, size];
    });
    return { ...written, ...Object.fromEntries(added) };
  };
  const into = (here: unknown, path: KeyPath, depth: number): unknown => {
    if (!isSection(here)) return here;
    const step = path[depth];
    if (step !== undefined) {
      return here[step] === undefined
        ? here
        : { ...here, [step]: into(here[step], path, depth + 1) };
    }
    const { like, ...written } = here;
    if (typeof like !== "string" || !Object.hasOwn(oscillatorClasses, like)) return here;
    const row = oscillatorClasses[like]!;
    return fill(typicalKeys(row), written, path, `typical of ${like}; ${row.source}`);
  };
  const filled = oscillators.reduce((here, path) => into(here, path, 0), value);
  return { filled, derived };
}
