/** What a unit measures. */
export type Dimension = "time" | "frequency" | "ratio" | "temperature" | "other";

/** A unit: 10^power · factor of the SI unit of its dimension (ratios: 1; temperatures: °C). */
export interface Unit {
  readonly of: Dimension;
  readonly power: number;
  readonly factor: number;
}

const prefixes: Readonly<Record<string, number>> = {
  "": 0,
  p: -12,
  n: -9,
  u: -6,
  µ: -6,
  μ: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
  pico: -12,
  nano: -9,
  micro: -6,
  mikro: -6,
  milli: -3,
  kilo: 3,
  mega: 6,
  giga: 9,
};
const short = /^([pnuµμm]?)(?:s|secs?|sek|S)$|^([uµμmkKMG]?)(?:Hz|HZ|hz)$/;
const long =
  /^(pico|nano|micro|mikro|milli)?(?:seconds?|sekunden?|secondes?)$|^(milli|kilo|mega|giga)?(?:hertz|herz)$/;
const perDay = /^([pnuµμm]?)s(?:ec)?(?:\/|_per_|_)(?:d|day)$/;
/** Whole units that have no prefix; a lower-case `mhz` might be either, and is none. */
const others: Readonly<Record<string, readonly [Dimension, number, number]>> = {
  MS: ["time", -3, 1],
  US: ["time", -6, 1],
  NS: ["time", -9, 1],
  min: ["time", 0, 60],
  h: ["time", 0, 3600],
  d: ["time", 0, 86400],
  day: ["time", 0, 86400],
  days: ["time", 0, 86400],
  cps: ["frequency", 0, 1],
  "1/s": ["frequency", 0, 1],
  "c/s": ["frequency", 0, 1],
  "s^-1": ["frequency", 0, 1],
  ppm: ["ratio", -6, 1],
  ppb: ["ratio", -9, 1],
  ppt: ["ratio", -12, 1],
};
const temperature = /^(?:[°º˚]\s?C|℃|deg_?C|C|celsius)$/i;
const noReading =
  /^(?:[munµμk]?[VAWΩ]|mhz|[rb]p[mh]|dBm?|%|%?RH|h?Pa|m?bar|K|[°º]?F|[°º]|deg|rad|cycles|counts?|edges)$/;

/**
 * Reads a unit.
 *
 * @param text - as written beside a number or in the name of a column
 * @returns the unit, or null for a word that is none
 *
 * Exact case: "µs" is 10^-6 s. A unit that no reading has (V, rpm, %) is of another dimension.
 */
export function readUnit(text: string): Unit | null {
  const other = others[text];
  if (other !== undefined) return { of: other[0], power: other[1], factor: other[2] };
  const day = perDay.exec(text);
  if (day !== null) return { of: "ratio", power: prefixes[day[1]!]!, factor: 1 / 86400 };
  const match = short.exec(text) ?? long.exec(text.toLowerCase());
  if (match !== null) {
    const isFrequency = match[2] !== undefined || /h(?:ert)?z$/i.test(text);
    return {
      of: isFrequency ? "frequency" : "time",
      power: prefixes[match[1] ?? match[2] ?? ""]!,
      factor: 1,
    };
  }
  if (temperature.test(text)) return { of: "temperature", power: 0, factor: 1 };
  return noReading.test(text) ? { of: "other", power: 0, factor: 1 } : null;
}
