import type { RandomStream } from "../../numeric/index.ts";
import { AliasTable } from "../../numeric/index.ts";
import { betweenPhases } from "./between-phases.ts";
import type { DelayLaw } from "./delay-law.ts";

/** One over the number of 32-bit words. */
const perWord = 2.3283064365386963e-10;

/** Bursts whose delays are drawn at one go, at most. */
export const mostBursts = 128;

/** Into how many parts each step between the start phases of a law is divided. */
const division = 4;

/** Fewest start phases and points in a period of a law that is drawn from. */
const fewestPhases = 16;
const fewestRows = 32;

/** Shares of bursts below this are cut off at the ends of a law. */
const negligible = 1e-12;

/** How to draw from a law; the same for any number of samplers. */
export interface DelayTables {
  /** Period of the rectified tone; s. */
  readonly period: number;
  /** Periods of the rectified tone in a cycle. */
  readonly periodsPerCycle: number;
  /** Knots in a period. */
  readonly perPeriod: number;
  /** A table of the knots for each start phase, the first once more at the end. */
  readonly tables: readonly AliasTable[];
  /** For each of them the place of its first knot, from the start of the period the burst begins in. */
  readonly firstKnots: Float64Array;
}

/**
 * What it takes to draw from a law.
 *
 * @param law - the law of bursts after a long silence
 * @returns tables; null where the law is an approximation too coarse to stand for the detector, or a burst could make its
 *   step within a period of the tone, so that laws of neighbouring phases are not alike
 */
export function delayTables(law: DelayLaw): DelayTables | null {
  let found = made.get(law);
  if (found === undefined) {
    found = makeTables(law);
    made.set(law, found);
  }
  return found;
}

const made = new WeakMap<DelayLaw, DelayTables | null>();

function makeTables(law: DelayLaw): DelayTables | null {
  const { isFrozen, isAveraged, rows, tone } = law.plan;
  if (isFrozen || isAveraged || rows < fewestRows) return null;
  const { phases } = law;
  const isFree = phases.length > 1;
  if (isFree && phases.length < fewestPhases) return null;
  // Weights counted from the start of the period the burst begins in, and a period of room at the end.
  const sums = phases.map(({ shares }, k) => {
    const sum = new Float64Array(shares.length + 2 * rows);
    sum.set(shares, (k * rows) / phases.length);
    return sum;
  });
  const early = phases.some(({ shares, share }) => {
    const first = shares.subarray(0, rows).reduce((a, b) => a + b, 0);
    return share < 0.5 || first > negligible;
  });
  if (early) return null;
  const laws = (isFree ? betweenPhases(sums, rows, division) : sums).map(trimmed);
  const knots = laws.map(({ firstKnot }) => firstKnot);
  const tables = laws.map(({ weights }) => new AliasTable(weights));
  // The phase after the last is the first, a period on.
  return {
    period: tone.period,
    periodsPerCycle: tone.periodsPerCycle,
    perPeriod: rows,
    tables: [...tables, tables[0]!],
    firstKnots: Float64Array.from([...knots, knots[0]! + rows]),
  };
}

/** The knots that count. */
function trimmed(sum: Float64Array): { firstKnot: number; weights: Float64Array } {
  const least = negligible * sum.reduce((a, b) => a + b, 0);
  const counts = (value: number) => value > least;
  const firstKnot = sum.findIndex(counts);
  return { firstKnot, weights: sum.slice(firstKnot, sum.findLastIndex(counts) + 1) };
}

/**
 * Delays of bursts from their law: where nothing is left of the burst before, the phase of the tone is all
 * that one burst has of its own.
 *
 * A burst that begins between two start phases of the law follows that of either, with the odds of linear
 * interpolation; the moment of the step is counted from the same crest of the tone. A law is straight
 * between its knots: a knot by its weight, and the difference of two uniform deviates about it.
 *
 *   F(t | φ) ≈ (1 − r)·F(t | φₖ) + r·F(t | φₖ₊₁),  r = (φ − φₖ)/(φₖ₊₁ − φₖ)
 *
 * errs by h²/8·∂²F/∂φ² at most, h the step between them: 1e-4 with sixteen phases, 6e-6 with the sixty-four of
 * `delayTables`. `BurstDetector` is what tests hold it to.
 */
export class DelaySampler {
  private readonly tables: DelayTables;
  private readonly words = new Uint32Array(4 * mostBursts);
  private readonly single = new Float64Array(1);
  private readonly stream: RandomStream;

  /**
   * @param tables - the law
   * @param stream - deviates of the receiver
   */
  constructor(tables: DelayTables, stream: RandomStream) {
    this.tables = tables;
    this.stream = stream;
  }

  /**
   * Delay of one burst.
   *
   * @param phaseTurns - phase of the tone at its start; turns, 0 ≤ phase < 1
   * @returns time from the start of the burst to the step; s
   */
  drawOne(phaseTurns: number): number {
    const { single } = this;
    single[0] = phaseTurns;
    this.draw(single, 1, single);
    return single[0]!;
  }

  /**
   * Delays of bursts, the same as as many calls of `drawOne`.
   *
   * @param phases - phase of the tone at the start of each; turns, 0 ≤ phase < 1
   * @param bursts - how many; from 1 to `mostBursts`
   * @param delays - receives the times from the start of each burst to its step; s
   */
  draw(phases: Float64Array, bursts: number, delays: Float64Array): void {
    const { stream, words } = this;
    const { tables, firstKnots, period, periodsPerCycle, perPeriod } = this.tables;
    const perKnot = period / perPeriod;
    const starts = tables.length - 1;
    const isFree = starts > 1;
    // One word chooses between neighbouring phases, one a knot, two a place about it.
    const choice = isFree ? 1 : 0;
    const pitch = choice + 3;
    stream.fillWords(words, 0, bursts * pitch);
    for (let i = 0, at = 0; i < bursts; i++, at += pitch) {
      const turns = phases[i]! * periodsPerCycle;
      const x = turns - Math.floor(turns);
      const place = x * starts;
      // The start phase before or after, without a branch, which would be a coin toss to the processor.
      const start = isFree ? Math.ceil(place - words[at]! * perWord) | 0 : 0;
      const knot = firstKnots[start]! + tables[start]!.draw(words[at + choice]! * perWord);
      const about = (words[at + choice + 1]! - words[at + choice + 2]!) * perWord;
      delays[i] = (knot - x * perPeriod + about) * perKnot;
    }
  }
}
