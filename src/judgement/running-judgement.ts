import { OnlineBank, type ReadingRecord } from "../noise-model/index.ts";
import type { Readings } from "../readings/index.ts";
import type { HeldRate } from "./best-fit.ts";
import { cleanReadings } from "./clean-readings.ts";
import { inferredCycles } from "./inferred-cycles.ts";
import { type Judgement, type JudgeOptions, judgeReadings } from "./judge-readings.ts";
import type { Outlier } from "./outlier.ts";
import { rateOfSlope } from "./rate-of-slope.ts";
import { repeatedReadings } from "./repeated-readings.ts";
import { toRecord } from "./to-record.ts";

/** Readings before which no goal counts as met: the interval covers too rarely where it is looked at so early. */
const leastKnown = 30;
/** Share by which a record must grow before a goal that the whole did not confirm is looked at again. */
const growth = 1.05;
/**
 * Shares of the time left by forecast between which eight in ten of white-PM records met their goal, looked at after 32
 * and 64 readings: measured, no published source.
 */
const spread = { run: [0.82, 1.38], steady: [0.8, 2.6] } as const;

/** What a record that still grows tells. */
export interface Running {
  /** Readings that are there. */
  readonly readings: number;
  /** Both rates so far; null before there are four readings, or where the record has no one rate. */
  readonly rates: { readonly overRun: HeldRate; readonly steady: HeldRate } | null;
  /** Half-width of the rate asked for, the systematic bound in it; dimensionless, NaN where there is none. */
  readonly half: number;
  readonly systematicBound: number;
  /** The last judgement of the whole, made whenever the record has doubled, and before a goal counts as met. */
  readonly whole: Judgement | null;
  /** Readings that it had. */
  readonly wholeReadings: number;
  /**
   * Readings in all at which the goal will be met, if readings and noise go on as found: most likely, and between which
   * two; Infinity for never; null where there is no goal, or nothing tells.
   */
  readonly needed: readonly [likely: number, low: number, high: number] | null;
  /** Slips put right, and what was set apart. */
  readonly outliers: readonly Outlier[];
  /** Whether the goal is met: at two looks in a row, with 30 readings at least, and by the whole. */
  readonly isKnown: boolean;
}

/**
 * Judges a record while it grows. Between judgements of the whole a bank of filters takes a reading more as it comes, and
 * is laid anew where a later reading shows an earlier one in another light.
 *
 * It stops by width, never by value; see `Running.isKnown`. Whether to look, `isDue` says by the number of readings
 * alone, so that the same readings end at the same one, however fast they come.
 */
export class RunningJudgement {
  readonly #options: JudgeOptions;
  #bank: OnlineBank;
  #fed: ReadingRecord | null = null;
  #looked = 0;
  #narrow = 0;
  #retry = 0;
  #whole: Judgement | null = null;
  #wholeReadings = 0;
  #needed: Running["needed"] = null;
  #outliers: readonly Outlier[] = [];

  constructor(options: JudgeOptions) {
    this.#options = options;
    this.#bank = new OnlineBank(options.known);
  }

  /** Whether a record of so many readings is to be looked at: at every one up to a hundred, then at every hundredth part. */
  isDue(readings: number): boolean {
    return readings - this.#looked >= Math.max(1, Math.floor(readings / 100));
  }

  /**
   * Looks at all readings so far.
   *
   * @param readings - the record; at least one reading not missing
   * @throws RangeError as `judgeReadings`
   */
  look(readings: Readings): Running {
    const counted = readings.kind === "period" ? inferredCycles(readings) : readings;
    const { without, repaired, strays } = cleanReadings(counted, this.#options.slipUnit ?? 1);
    this.#outliers = [...repaired.slips, ...strays];
    const { record } = toRecord(without, repeatedReadings(without));
    this.#feed(record);
    const values = readings.kind === "period" ? readings.period : readings.timeError;
    const present = values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
    this.#looked = present;
    if (present >= Math.max(4, 2 * this.#wholeReadings)) this.judge(readings);
    let running = this.#running(readings, present);
    const { within } = this.#options;
    this.#narrow = within !== undefined && running.half <= within ? this.#narrow + 1 : 0;
    if (this.#narrow >= 2 && present >= leastKnown && present >= this.#retry) {
      if (this.#wholeReadings !== present) this.judge(readings);
      const isKnown = this.halfOf(this.#whole!) <= within!;
      this.#retry = growth * present;
      running = { ...this.#running(readings, present), isKnown };
    }
    return running;
  }

  /** Judges the whole. */
  judge(readings: Readings): Judgement {
    const values = readings.kind === "period" ? readings.period : readings.timeError;
    this.#wholeReadings = values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
    const whole = judgeReadings(readings, this.#options);
    this.#whole = whole;
    const { within, of } = this.#options;
    const left = (within ?? 0) - (whole.headline?.systematicBound ?? 0);
    const posterior = whole.fit?.posterior;
    if (left > 0 && posterior) {
      const total = posterior.readingsFor(left, of === "run" ? "overRun" : "steady");
      const [early, late] = spread[of === "run" ? "run" : "steady"];
      const after = (share: number) =>
        this.#wholeReadings + share * Math.max(0, total - this.#wholeReadings);
      this.#needed = [total, after(early), after(late)];
    } else this.#needed = null;
    return whole;
  }

  /** Half-width of the rate asked for, the systematic bound in it; NaN where the record has no one rate. */
  halfOf({ headline }: Judgement): number {
    return headline === null
      ? Number.NaN
      : headline.systematicBound + halfWidth(this.#asked(headline));
  }

  #asked<T>({ overRun, steady }: { readonly overRun: T; readonly steady: T }): T {
    return this.#options.of === "run" ? overRun : steady;
  }

  #running(readings: Readings, present: number): Running {
    const whole = this.#whole;
    const headline = whole?.headline ?? null;
    const systematicBound = headline?.systematicBound ?? this.#options.systematicBound ?? 0;
    const wholeReadings = this.#wholeReadings;
    const found = { whole, needed: this.#needed, outliers: this.#outliers, isKnown: false };
    const common = { readings: present, systematicBound, wholeReadings, ...found };
    const slopes = this.#bank.slopes();
    if (wholeReadings === present && headline !== null) {
      return { ...common, rates: headline, half: this.halfOf(whole!) };
    }
    if (slopes === null || headline === null) {
      return { ...common, rates: null, half: Number.NaN };
    }
    const toRate = readings.kind === "period" ? rateOfSlope : (slope: number) => slope;
    const held = ({ estimate, low, high }: { estimate: number; low: number; high: number }) => ({
      rate: toRate(estimate + this.#shift()),
      interval95: [toRate(low + this.#shift()), toRate(high + this.#shift())] as const,
    });
    const rates = { overRun: held(slopes.overRun), steady: held(slopes.steady) };
    const half = systematicBound + halfWidth(this.#asked(rates));
    return { ...common, rates, half };
  }

  /** What the whole takes out of the slope that the bank does not know of: the race of a gate of whole ticks. */
  #shift(): number {
    return this.#whole?.fit?.shift ?? 0;
  }

  /** Hands the bank what is new; a new bank where what it had is no longer the beginning of the record. */
  #feed(record: ReadingRecord): void {
    const fed = this.#fed;
    let size = fed?.length.length ?? 0;
    if (fed !== null && !isBeginning(fed, record)) {
      this.#bank = new OnlineBank(this.#options.known);
      size = 0;
    }
    const { length, gain, gap, gapGain } = record;
    for (let i = size; i < length.length; i++) {
      this.#bank.add({ length: length[i]!, gain: gain[i]!, gap: gap[i]!, gapGain: gapGain[i]! });
    }
    this.#fed = record;
  }
}

const halfWidth = ({ interval95: [low, high] }: HeldRate): number => (high - low) / 2;

function isBeginning(first: ReadingRecord, whole: ReadingRecord): boolean {
  return (
    first.length.length <= whole.length.length &&
    (["length", "gain", "gap", "gapGain"] as const).every((key) =>
      first[key].every((value, i) => Object.is(value, whole[key][i])),
    )
  );
}
