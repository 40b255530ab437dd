/** What a pupil hands in. */
export interface Claim {
  readonly word: string;
  readonly name: string;
  /** Rate in the long run and what it is good to; ms/day. */
  readonly rate: number;
  readonly half: number;
}

const mark = "TW";

/** A sum over the bytes that a slip of the pen changes. */
const checkOf = (bytes: Uint8Array) =>
  (bytes.reduce((sum, byte) => (sum * 31 + byte) % 1296, 7) + 1296).toString(36).slice(-2);

/**
 * A claim as a code of letters, digits, `-` and `_`.
 *
 * Exact case: `claimOf(codeOf(c))` gives c back.
 */
export function codeOf({ word, name, rate, half }: Claim): string {
  const bytes = new TextEncoder().encode(JSON.stringify([word, name, rate, half]));
  const text = btoa(String.fromCharCode(...bytes));
  return `${mark}${checkOf(bytes)}${text.replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "")}`;
}

/**
 * The claim in a code.
 *
 * @param code - as handed in
 * @returns the claim; null where it is no code, or was not copied whole
 */
export function claimOf(code: string): Claim | null {
  try {
    const text = code.trim().slice(mark.length + 2);
    const plain = atob(text.replace(/-/g, "+").replace(/_/g, "/"));
    const bytes = Uint8Array.from(plain, (character) => character.charCodeAt(0));
    if (code.trim().slice(0, mark.length + 2) !== mark + checkOf(bytes)) return null;
    const [word, name, rate, half] = JSON.parse(new TextDecoder().decode(bytes));
    const isSound = `${word}` === word && `${name}` === name && Number.isFinite(rate) && half > 0;
    return isSound ? { word, name, rate, half } : null;
  } catch {
    return null;
  }
}

/** A half-width beyond so many times what the time allowed claims too little. */
const tooCautious = 10;

/**
 * What a claim is worth.
 *
 * @param claim - in ms/day
 * @param truth - ms/day
 * @param best - half-width at 95 % that the best way reaches in the time allowed; ms/day
 */
export function claimVerdict({ rate, half }: Claim, truth: number, best: number): string {
  if (Math.abs(rate - truth) > half) return "claimed too much";
  return half > tooCautious * best ? "claimed too little" : "sound";
}

/** Gate and number of readings of each run, as they stand in the address: such as `10x20.1x60`. */
export const runsIn = (text: string): readonly (readonly [units: number, readings: number])[] =>
  text === "" ? [] : text.split(".").map((run) => run.split("x").map(Number) as [number, number]);

/** Time that a pupil has; in units of the gate. */
export const classBudget = 600;
