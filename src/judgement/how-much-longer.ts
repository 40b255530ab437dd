import type { BestFit } from "./best-fit.ts";

/** How much longer a record has to go on for an accuracy. */
export interface MuchLonger {
  readonly method: "best_fit";
  readonly of: "run" | "day" | "long";
  readonly reachable: boolean;
  /** Time still needed; s; 0 where it is there already, NaN where it is never. */
  readonly further: number;
  /** Half-width now, the systematic bound in it; dimensionless. */
  readonly now: number;
  /** Best half-width that going on can give; dimensionless. */
  readonly best: number;
  readonly limitedBy: "systematic_bound" | "measurement" | "flicker_fm" | "white_fm";
}

/**
 * How much longer the readings have to go on until the half-width of a rate, with the systematic bound, is at most
 * what is wanted.
 *
 * @param fit - best fit of what there is
 * @param within - half-width wanted at 95 %; dimensionless, > 0
 * @param systematicBound - half-width that no averaging removes; dimensionless, >= 0
 * @param of - of which rate: run, or day and long for the steady one
 * @returns the answer
 *
 * Source: NoisePosterior.readingsFor. Exact case: a bound above what is wanted is never enough.
 */
export function howMuchLonger(
  fit: BestFit,
  within: number,
  systematicBound: number,
  of: "run" | "day" | "long",
): MuchLonger {
  const [low, high] = (of === "run" ? fit.overRun : fit.steady).interval95;
  const half = (high - low) / 2;
  const { posterior, duration } = fit;
  const left = within - systematicBound;
  const common = { method: "best_fit" as const, of, now: half + systematicBound };
  const never = { ...common, reachable: false, further: Number.NaN };
  if (!(left > 0)) return { ...never, best: systematicBound, limitedBy: "systematic_bound" };
  if (half <= left) {
    const best = half + systematicBound;
    return { ...common, reachable: true, further: 0, best, limitedBy: "measurement" };
  }
  if (posterior === null)
    return { ...never, best: half + systematicBound, limitedBy: "measurement" };
  const total = posterior.readingsFor(left, of === "run" ? "overRun" : "steady");
  if (total === Infinity) {
    const floor = posterior.level("flickerFm").estimate;
    return { ...never, best: systematicBound + 2 * floor, limitedBy: "flicker_fm" };
  }
  const further = duration * Math.max(0, total / posterior.readings() - 1);
  return { ...common, reachable: true, further, best: within, limitedBy: "measurement" };
}
