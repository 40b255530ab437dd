import type { Fault, KeyPath } from "../keys/index.ts";
import type { ScenarioDocument } from "./schema.ts";

/** The smallest size but 0, and the greatest, that a quantity may have; unit of both. */
interface Extent {
  readonly ends: RegExp;
  readonly least: number;
  readonly greatest: number;
  readonly unit: string;
}

/**
 * How large quantities may be, by the ending of their key; the first that fits holds.
 *
 * Far beyond what a clock-drive chain can have, and well within what doubles can square and add up.
 */
const extents: readonly Extent[] = [
  { ends: /^white_pm_rms_s$/, least: 0, greatest: 1, unit: "s" },
  { ends: /_s_per_sqrt_hz$/, least: 0, greatest: 1, unit: "s/√Hz" },
  { ends: /_s$/, least: 1e-24, greatest: 1e12, unit: "s" },
  { ends: /_hz$/, least: 1e-12, greatest: 1e15, unit: "Hz" },
  { ends: /_v(?:rms)?$/, least: 1e-12, greatest: 1e9, unit: "V" },
  { ends: /^h(?:_minus_)?\d$/, least: 0, greatest: 1, unit: "" },
  { ends: /^count$/, least: 1, greatest: 1000, unit: "" },
  { ends: /(?:)/, least: 0, greatest: 1e6, unit: "" },
];

/**
 * Numbers so large or so small that they can only be slips of the pen.
 *
 * @param document - the scenario as written, type-checked
 * @returns a fault for each, none where all numbers have a size that the models can work with
 */
export function extentFaults(document: ScenarioDocument): Fault[] {
  const { seed: _seed, ...quantities } = document;
  const faults: Fault[] = [];
  look(quantities, []);
  return faults;

  function look(value: unknown, path: KeyPath): void {
    if (typeof value === "number") {
      const fault = extentFault(value, path);
      if (fault !== null) faults.push(fault);
    } else if (typeof value === "object" && value !== null) {
      const isList = Array.isArray(value);
      for (const [key, inner] of Object.entries(value)) {
        look(inner, [...path, isList ? Number(key) : key]);
      }
    }
  }
}

function extentFault(value: number, path: KeyPath): Fault | null {
  const key = String(path.at(-1));
  const { least, greatest, unit } = extents.find(({ ends }) => ends.test(key))!;
  const size = Math.abs(value);
  if (size === 0 || (size >= least && size <= greatest)) return null;
  const isLarge = size > greatest;
  const limit = `${isLarge ? "at most" : "0 or at least"} ${isLarge ? greatest : least}`;
  return {
    path,
    at: "value",
    message: `must be ${limit}${unit && ` ${unit}`} in size, got ${value}`,
    hint: isLarge ? "nothing in a clock-drive chain is so large" : "write 0 for nothing",
  };
}
