import type { Scenario } from "../scenario/index.ts";
import { readingExcess } from "../stages/counter/index.ts";
import { explainedRates, wandering } from "../stages/oscillator/index.ts";
import type { DelayByPhase } from "../stages/receiver/index.ts";
import { settingOf } from "../stages/synthesizer/index.ts";
import { delayByPhase } from "./detection-delay.ts";
import { estimateVariance } from "./estimate-variance.ts";
import type { GateRace } from "./gate-race.ts";
import { type Measurement, measurements } from "./measurement.ts";
import { systematicBound } from "./systematic-bound.ts";
import { endPoints } from "./weighting.ts";

/**
 * How a contribution acts: `random` scatters readings about the source's own rate in each gate, `accumulating`
 * is the source's own wandering, `systematic` a bound that no averaging narrows, `explained` a known part of
 * the rate.
 */
export type ContributionKind = "random" | "accumulating" | "systematic" | "explained";

/** What one cause adds to a reading. */
export interface Contribution {
  readonly stage: string;
  readonly cause: string;
  readonly kind: ContributionKind;
  /** Size as a fraction of the period: rms, Allan deviation, bound or signed rate by kind. */
  readonly fractionOfPeriodRms: number;
}

/** An uncertainty budget of one reading. */
export interface Budget {
  /** Average length of a reading, in whole periods; s. */
  readonly gate: number;
  readonly rows: readonly Contribution[];
  /** Rms of a reading about the source's own rate in its gate: root of the sum of squares of random rows. */
  readonly totalRandomRms: number;
  readonly systematicBound: number;
  /** What a gate of whole periods does to the mean of readings; null where nothing. */
  readonly race: GateRace | null;
}

/**
 * The uncertainty budget of one reading of a scenario's counter.
 *
 * @param scenario - the scenario
 * @param gate - gate in s or `single`; that of the scenario's counter where left out
 * @param delay - detection delay by phase of the tone; null where the chain has no
 *   receiver; by theory where left out
 * @returns rows, the largest first within each kind
 * @throws RangeError if gate is not above 0, or as `chainNoise`
 *
 * Source: JCGM 100:2008 (GUM), 5.1.2 and 8: independent contributions add in squares; IEEE Std 1139 for the
 * accumulating ones.
 */
export function budget(
  scenario: Scenario,
  gate: number | "single" = scenario.counter.gate,
  delay: DelayByPhase | null = delayByPhase(scenario),
): Budget {
  return budgetAt(scenario, measurements(scenario, scenario.counter.input, delay), gate);
}

/**
 * The same from measurements made before, for budgets at many gates.
 *
 * @param scenario - the scenario
 * @param source - what its counter sees, from `measurements`
 * @param gate - gate in s or `single`
 * @throws RangeError if gate is not above 0
 */
export function budgetAt(
  scenario: Scenario,
  source: ReturnType<typeof measurements>,
  gate: number | "single",
): Budget {
  if (gate !== "single" && !(gate > 0)) {
    throw new RangeError(`budget: gate must be > 0 s, got ${gate}`);
  }
  const { technique, deadTime } = scenario.counter;
  const measurement = source.measure({ technique, gate, deadTime });
  const length = measurement.timing.gate;
  const random = randomRows(measurement, scenario.length);
  const systematic = measurement.systematic.map(
    ({ stage, cause, bound }): Contribution => ({
      stage,
      cause,
      kind: "systematic",
      fractionOfPeriodRms: bound,
    }),
  );
  return {
    gate: length,
    rows: [
      ...sorted(random),
      ...sorted(accumulatingRows(scenario, length)),
      ...sorted(systematic),
      ...sorted(explainedRows(scenario)),
    ],
    totalRandomRms: Math.hypot(...random.map((row) => row.fractionOfPeriodRms)),
    systematicBound: systematicBound(measurement.systematic),
    race: measurement.race,
  };
}

const sorted = (rows: readonly Contribution[]) =>
  rows.toSorted((a, b) => Math.abs(b.fractionOfPeriodRms) - Math.abs(a.fractionOfPeriodRms));

/** Measurement noise of a reading, averaged over a run of a given length. */
function randomRows({ timing, terms, jitter }: Measurement, runLength: number): Contribution[] {
  const reading = endPoints(timing.gate);
  const sums = new Map<string, { stage: string; cause: string; variance: number }>();
  let scatter = 0;
  for (const { stage, cause, shape } of terms) {
    let variance = estimateVariance(reading, shape);
    if (shape.type === "random_walk_fm") {
      // A walk that began with the run: readings half a run later carry it with them, on the average.
      variance += (shape.diffusion * Math.max(0, runLength - timing.gate)) / 2;
    }
    if (shape.type === "white") scatter += variance;
    const key = `${stage} ${cause}`;
    const sum = sums.get(key) ?? { stage, cause, variance: 0 };
    sum.variance += variance;
    sums.set(key, sum);
  }
  const excess = readingExcess(timing, jitter);
  const kind = "random";
  // Edges chosen scatter less than edges as they come: that comes off what scatters from edge to edge.
  const share = excess < 0 && scatter > 0 ? Math.max(0, 1 + excess / scatter) : 1;
  const rows: Contribution[] = [...sums.values()].map(({ stage, cause, variance }) => ({
    stage,
    cause,
    kind,
    fractionOfPeriodRms: Math.sqrt(variance),
  }));
  if (share < 1) {
    const white = new Set(
      terms.filter(({ shape }) => shape.type === "white").map((t) => `${t.stage} ${t.cause}`),
    );
    return rows.map((row) =>
      white.has(`${row.stage} ${row.cause}`)
        ? { ...row, fractionOfPeriodRms: row.fractionOfPeriodRms * Math.sqrt(share) }
        : row,
    );
  }
  if (excess > 0) {
    const cause = "which edge the gate catches";
    rows.push({ stage: "counter", cause, kind, fractionOfPeriodRms: Math.sqrt(excess) });
  }
  return rows;
}

/** The source's own wandering, by Allan deviation at the gate. */
function accumulatingRows({ counter, reference }: Scenario, gate: number): Contribution[] {
  if (counter.timebase === "reference") return [];
  return wandering(reference.noise, gate).map(({ cause, deviation }) => ({
    stage: "reference",
    cause,
    kind: "accumulating",
    fractionOfPeriodRms: deviation,
  }));
}

/** What is known of the rate beforehand. */
function explainedRows(scenario: Scenario): Contribution[] {
  const { synthesizer, drive, clock, counter } = scenario;
  const rows: Contribution[] = [];
  const add = (stage: string, cause: string, rate: number) => {
    if (rate !== 0) rows.push({ stage, cause, kind: "explained", fractionOfPeriodRms: rate });
  };
  const isSynthesized = counter.input === "synthesizer" || (counter.input === "clock" && drive);
  if (synthesizer !== null && isSynthesized) {
    const rightHz = counter.input === "clock" ? clock.tickHz * clock.stepsPerTick : undefined;
    add("synthesizer", "setting error", settingOf(synthesizer, rightHz).fractionalError);
  }
  if (counter.timebase === "reference") return rows;
  for (const { cause, rate } of explainedRates(scenario)) add("reference", cause, rate);
  return rows;
}
