import type { PeriodReadings, Readings } from "../../readings/index.ts";
import { requireReadings } from "../../readings/index.ts";
import type { StabilityRow } from "../stability/stability-row.ts";
import {
  stabilityTableFromRates,
  stabilityTableFromTimeError,
} from "../stability/stability-table.ts";
import { cleanReadings } from "./clean-readings.ts";
import { describeNoise, type NoiseFound } from "./describe-noise.ts";
import { type DialAhead, dialAhead } from "./dial-ahead.ts";
import { type DigitWarning, digitWarnings } from "./digit-warnings.ts";
import { estimateRates } from "./estimate-rates.ts";
import { howMuchLonger, type MuchLonger } from "./how-much-longer.ts";
import type { Outlier } from "./outlier.ts";
import { rateCandidates } from "./rate-candidates.ts";
import type { EstimatorMethod, RateEstimate } from "./rate-estimate.ts";
import { notOfOneRate, tooMuchApart } from "./too-much-apart.ts";

/** What is asked of a record, and known beside it. */
export interface JudgeOptions {
  /** Half-width of a bound on what shifts every reading alike; dimensionless, >= 0. */
  readonly systematicBound?: number;
  /** Smallest slip; cycles, 0 < unit <= 1. */
  readonly slipUnit?: number;
  /** Averaging times of the stability table. */
  readonly taus?: "octaves" | "all";
  /** Half-width wanted at 95 %; dimensionless, > 0. */
  readonly within?: number;
  /** Time for which to look ahead; s, > 0. */
  readonly ahead?: number;
}

/** Everything a record of readings tells. */
export interface Judgement {
  /** Readings that are there, and places where one is missing. */
  readonly readings: number;
  readonly missing: number;
  /** Length of a reading (of time errors: their spacing); s. */
  readonly gate: number;
  /** Null for time errors, which have no gate. */
  readonly backToBack: boolean | null;
  /** From the end of a reading to the start of the next; s; null where not known, and for time errors. */
  readonly deadTime: number | null;
  /** Slips repaired, strays set apart. */
  readonly estimates: readonly RateEstimate[];
  /** The same with the strays left in; null where there are none. */
  readonly estimatesWithStrays: readonly RateEstimate[] | null;
  /** What setting strays apart does to the estimators; empty where there are none. */
  readonly strayEffect: string;
  readonly singleReading: { readonly standardDeviation: number };
  readonly outliers: readonly Outlier[];
  /** Time lost in slips (> 0: the dial lost it, if it was the clock that slipped); s. */
  readonly lost: number;
  /** What readings alone cannot say about slips; empty where there are none. */
  readonly slipNote: string;
  readonly noiseFound: NoiseFound;
  /** Noise type by averaging time, where it could be told. */
  readonly noise: readonly { readonly tau: number; readonly type: string }[];
  readonly stability: readonly StabilityRow[];
  /** Why there is no stability table; empty where there is one. */
  readonly stabilityWhy: string;
  /** By the methods that apply; null where not asked, empty where none does. */
  readonly longer: readonly MuchLonger[] | null;
  readonly ahead: readonly DialAhead[] | null;
  readonly warnings: readonly DigitWarning[];
}

/**
 * Judges a record of readings: rate, how sure, what spoils it, how stable, how much longer.
 *
 * @param given - the record; at least one reading not missing
 * @param options - what is asked, and known beside it
 * @returns the judgement, SI units
 * @throws RangeError as `estimateRates`, or if an option is out of its range
 *
 * Source: see the single functions. Exact case: readings of one period give its rate by three methods.
 */
export function judgeReadings(given: Readings, options: JudgeOptions = {}): Judgement {
  requireReadings("judgeReadings", given);
  requireOptions(options);
  const { systematicBound = 0, slipUnit = 1 } = options;
  const { repaired, strays, without } = cleanReadings(given, slipUnit);
  const found = rateCandidates(without);
  const { candidates, singleDeviation } = found;
  const values = given.kind === "period" ? given.period : given.timeError;
  const present = values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
  // By the counts as given: what a slip adds to one of them makes no reading longer.
  const gate = gateOf(given);
  const { rows, why } = stabilityOf(without, gate, options.taus ?? "octaves");
  const bound = { systematicBound };
  const against = tooMuchApart(given, without);
  const ofOneRate = (estimates: RateEstimate[]) =>
    against === "" ? estimates : notOfOneRate(estimates, against);
  const estimates = ofOneRate(estimateRates(without, bound, found));
  // What a method cannot tell of the rate now it cannot tell of what follows from it.
  const applying = new Set(estimates.filter((e) => e.applies).map((e) => e.method));
  const ofApplying = <T extends { readonly method: EstimatorMethod }>(answers: T[]) =>
    answers.filter(({ method }) => applying.has(method));
  return {
    readings: present,
    missing: values.length - present,
    gate,
    backToBack: given.kind === "period" ? given.backToBack : null,
    deadTime: given.kind !== "period" ? null : given.backToBack ? 0 : (given.deadTime ?? null),
    estimates,
    estimatesWithStrays:
      strays.length > 0 ? ofOneRate(estimateRates(repaired.readings, bound)) : null,
    strayEffect: strayEffect(strays.length, given, without),
    singleReading: { standardDeviation: singleDeviation },
    outliers: [...repaired.slips, ...strays].sort((a, b) => a.reading - b.reading),
    lost: repaired.lost,
    slipNote:
      repaired.slips.length > 0
        ? "readings alone cannot tell a slip of the clock from a miscount of the counter: only if the clock slipped did its dial lose that time"
        : "",
    noiseFound: describeNoise(candidates[0]!.noise),
    noise: rows.flatMap((r) => (r.noiseType === null ? [] : [{ tau: r.tauS, type: r.noiseType }])),
    stability: rows,
    stabilityWhy: why,
    longer:
      options.within === undefined
        ? null
        : ofApplying(howMuchLonger(without, options.within, systematicBound, found)),
    ahead:
      options.ahead === undefined
        ? null
        : ofApplying(dialAhead(without, options.ahead, systematicBound, found)),
    warnings: digitWarnings(given),
  };
}

function requireOptions({
  systematicBound = 0,
  slipUnit = 1,
  within = 1,
  ahead = 1,
}: JudgeOptions) {
  const refuse = (what: string): never => {
    throw new RangeError(`judgeReadings: ${what}`);
  };
  if (!(systematicBound >= 0)) refuse(`systematicBound must be >= 0, got ${systematicBound}`);
  if (!(slipUnit > 0 && slipUnit <= 1)) refuse(`slipUnit must be > 0 and <= 1, got ${slipUnit}`);
  if (!(within > 0)) refuse(`within must be > 0, got ${within}`);
  if (!(ahead > 0)) refuse(`ahead must be > 0 s, got ${ahead}`);
}

function strayEffect(strays: number, given: Readings, readings: Readings): string {
  if (strays === 0) return "";
  if (given.kind === "time_error" && readings.kind === "period") {
    return "the time error has steps that are no whole slip; the rate is that between them, each stretch having two end edges, and what the dial gained over the steps must be added";
  }
  if (readings.kind === "time_error") {
    return "strays are left out; time errors stand on one scale, so that nothing breaks";
  }
  return readings.backToBack
    ? "leaving strays out of a back-to-back record breaks it: the mean of readings then has two end edges for every stretch, and end to end holds only where the cycles in the breaks are certain"
    : "with dead time each reading stands for itself, so that leaving strays out costs no more than their number";
}

function gateOf(readings: Readings): number {
  if (readings.kind === "time_error") return readings.spacing;
  let count = 0;
  let known = 0;
  for (let i = 0; i < readings.cycles.length; i++) {
    if (Number.isNaN(readings.period[i]!)) continue;
    count += readings.cycles[i]!;
    known++;
  }
  return (count * readings.nominalPeriod) / known;
}

/**
 * What the stability table is about: slopes of the time error, which add up over readings; of readings that came as
 * fractional frequencies, however large, those.
 */
function deviationsOf({ period, nominalPeriod, isRate }: PeriodReadings): Float64Array {
  return isRate
    ? period.map((p) => nominalPeriod / p - 1)
    : period.map((p) => 1 - p / nominalPeriod);
}

function stabilityOf(
  readings: Readings,
  gate: number,
  factors: "octaves" | "all",
): { rows: StabilityRow[]; why: string } {
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    return timeError.length < 3
      ? { rows: [], why: "fewer than three readings have no stability" }
      : { rows: stabilityTableFromTimeError(timeError, spacing, { factors }), why: "" };
  }
  if (readings.period.length < 2) {
    return { rows: [], why: "one reading has no stability" };
  }
  const spacing = readings.backToBack ? gate : gate + (readings.deadTime ?? Number.NaN);
  if (Number.isNaN(spacing)) {
    return { rows: [], why: "the dead time between the readings is not known; give --dead-time" };
  }
  return {
    rows: stabilityTableFromRates(deviationsOf(readings), gate, spacing, { factors }),
    why: "",
  };
}
