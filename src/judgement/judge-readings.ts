import {
  type StabilityRow,
  stabilityTableFromRates,
  stabilityTableFromTimeError,
} from "../analysis/index.ts";
import type { Known } from "../noise-model/index.ts";
import { type PeriodReadings, type Readings, requireReadings } from "../readings/index.ts";
import { type Agreement, agreementWith, type Expected } from "./agreement.ts";
import type { TemperatureCoefficient } from "./at-mean-temperature.ts";
import type { BestFit, Finding, HeldLevel } from "./best-fit.ts";
import { cleanReadings } from "./clean-readings.ts";
import { type DialAhead, dialAhead } from "./dial-ahead.ts";
import { type DigitWarning, digitWarnings } from "./digit-warnings.ts";
import { estimateRates, ratesFound } from "./estimate-rates.ts";
import { type Headline, headlineOf } from "./headline.ts";
import { howMuchLonger, type MuchLonger } from "./how-much-longer.ts";
import { inferredCycles } from "./inferred-cycles.ts";
import { noiseAt } from "./noise-by-tau.ts";
import { type NoiseFound, noiseFound } from "./noise-found.ts";
import type { Outlier } from "./outlier.ts";
import type { RateEstimate } from "./rate-estimate.ts";
import { notOfOneRate, tooMuchApart } from "./too-much-apart.ts";

/** What is asked of a record, and known beside it. */
export interface JudgeOptions {
  /** Half-width of a bound on what shifts every reading alike; dimensionless, >= 0. */
  readonly systematicBound?: number;
  /** Smallest slip; cycles, 0 < unit <= 1. */
  readonly slipUnit?: number;
  /** Averaging times of the stability table. */
  readonly taus?: "octaves" | "all";
  /** Half-width wanted at 95 %, the systematic bound in it; dimensionless, > 0. */
  readonly within?: number;
  /** Of which rate: over the run, or (day, long) the steady one. */
  readonly of?: "run" | "day" | "long";
  /** What is known of the source. */
  readonly known?: Known;
  /** What a scenario lets the record show: its levels are taken as known where the record agrees with them. */
  readonly expected?: Expected;
  /** What the systematic bound is of. */
  readonly systematicCause?: string;
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
  /** The answer: the best fit; null for too few readings, or where the record has no one rate. */
  readonly headline: Headline | null;
  /** What it stands on, for what else is asked of it; null where it is. */
  readonly fit: BestFit | null;
  /** Noise levels with their 95 % intervals; empty for too few readings. */
  readonly levels: readonly HeldLevel[];
  /** Whether the record is as expected; null where that was not asked, or where there is no best fit. */
  readonly agreement: Agreement | null;
  /** What the model found in the record. */
  readonly findings: readonly Finding[];
  /** How the rate follows the temperature; null where that was not asked. */
  readonly temperature: TemperatureCoefficient | null;
  /** Standard deviation of the next run's best fit about this one's; NaN for too few readings. */
  readonly nextRun: number;
  readonly noiseFound: NoiseFound;
  /** Noise type by averaging time, where it could be told. */
  readonly noise: readonly { readonly tau: number; readonly type: string }[];
  readonly stability: readonly StabilityRow[];
  /** Why there is no stability table; empty where there is one. */
  readonly stabilityWhy: string;
  /** By the best fit; null where not asked, empty where it cannot be told. */
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
  const { systematicBound = 0, slipUnit = 1, known = {}, of = "long" } = options;
  const counted = given.kind === "period" ? inferredCycles(given) : given;
  const { repaired, strays, without } = cleanReadings(counted, slipUnit);
  const against = tooMuchApart(counted, without);
  const plain = ratesFound(without, { systematicBound, known });
  const { expected } = options;
  const agreement =
    expected && plain.fit ? agreementWith(plain.fit, expected, systematicBound) : null;
  const found = agreement?.noise
    ? ratesFound(without, { systematicBound, known: { ...known, expected: expected!.levels } })
    : plain;
  const fit = against === "" ? found.fit : null;
  const headline = fit && headlineOf(fit, systematicBound, options.systematicCause ?? "time base");
  const bound = headline?.systematicBound ?? systematicBound;
  const values = given.kind === "period" ? given.period : given.timeError;
  const present = values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
  // By the counts before any was repaired: what a slip adds to one of them makes no reading longer.
  const gate = gateOf(counted);
  const { rows, why } = stabilityOf(without, gate, options.taus ?? "octaves", found.fit);
  const ofOneRate = (estimates: RateEstimate[]) =>
    against === "" ? estimates : notOfOneRate(estimates, against);
  const faults = faultsOf(found.fit, given.nominalPeriod ?? Number.NaN);
  return {
    readings: present,
    missing: values.length - present,
    gate,
    backToBack: given.kind === "period" ? given.backToBack : null,
    deadTime: given.kind !== "period" ? null : given.backToBack ? 0 : (given.deadTime ?? null),
    headline,
    fit,
    levels: found.fit?.levels ?? [],
    agreement,
    findings: found.fit?.findings ?? [],
    temperature: found.fit?.temperature ?? null,
    nextRun: fit?.nextRun ?? Number.NaN,
    estimates: ofOneRate(found.estimates),
    estimatesWithStrays:
      strays.length > 0 ? ofOneRate(estimateRates(repaired.readings, { systematicBound })) : null,
    strayEffect: strayEffect(strays.length, given, without),
    singleReading: { standardDeviation: found.plain.singleDeviation },
    outliers: [...repaired.slips, ...strays, ...faults].sort((a, b) => a.reading - b.reading),
    lost: repaired.lost,
    slipNote:
      repaired.slips.length > 0
        ? "readings alone cannot tell a slip of the clock from a miscount of the counter: only if the clock slipped did its dial lose that time"
        : "",
    noiseFound: noiseFound(found.fit, gate, found.plain.singleDeviation),
    noise: rows.flatMap((r) => (r.noiseType === null ? [] : [{ tau: r.tauS, type: r.noiseType }])),
    stability: rows,
    stabilityWhy: why,
    longer:
      options.within === undefined
        ? null
        : fit
          ? [howMuchLonger(fit, options.within, bound, of)]
          : [],
    ahead: options.ahead === undefined ? null : fit ? [dialAhead(fit, options.ahead, bound)] : [],
    warnings: digitWarnings(given),
  };
}

/** Faults that the model found, as outliers of the record. */
function faultsOf(fit: BestFit | null, nominalPeriod: number): Outlier[] {
  return (fit?.findings ?? []).flatMap(({ code, reading, size }): Outlier[] => {
    if (reading === null || !["phase_step", "slip", "outlier"].includes(code)) return [];
    const kind = code === "outlier" ? "stray" : "step";
    return [{ reading, kind, cycles: -size / nominalPeriod, repaired: false, timeError: size }];
  });
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
    return "outliers are excluded; time errors stand on one scale, so that nothing breaks";
  }
  return readings.backToBack
    ? "excluding outliers from a back-to-back record breaks it: the mean of readings then has two end edges for every stretch, and end to end holds only where the cycles in the breaks are certain"
    : "with dead time each reading stands for itself, so that excluding outliers costs no more than their number";
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
  fit: BestFit | null,
): { rows: StabilityRow[]; why: string } {
  const posterior = fit?.posterior ?? null;
  const typeAt = (tau: number) => (posterior === null ? null : noiseAt(posterior, tau));
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    return timeError.length < 3
      ? { rows: [], why: "fewer than three readings have no stability" }
      : { rows: stabilityTableFromTimeError(timeError, spacing, { factors, typeAt }), why: "" };
  }
  if (readings.period.length < 2) {
    return { rows: [], why: "one reading has no stability" };
  }
  const spacing = readings.backToBack ? gate : gate + (readings.deadTime ?? Number.NaN);
  if (Number.isNaN(spacing)) {
    return { rows: [], why: "the dead time between the readings is not known; give --dead-time" };
  }
  return {
    rows: stabilityTableFromRates(deviationsOf(readings), gate, spacing, { factors, typeAt }),
    why: "",
  };
}
