import type { RandomStream } from "../../numeric/index.ts";
import { AliasTable } from "../../numeric/index.ts";
import type { BurstDelayLaw } from "./burst-delay-law.ts";

/** One over the number of 32-bit words. */
const perWord = 2.3283064365386963e-10;

/** Bursts whose delays are drawn at one go, at most. */
export const mostBursts = 128;

/** A law, and how to draw from it; the same for any number of samplers. */
export interface DelayTables {
  readonly law: BurstDelayLaw;
  /** A table of the knots for each start phase, the first once more at the end. */
  readonly tables: readonly AliasTable[];
  /** For each of them the place of the first knot. */
  readonly firstKnots: Float64Array;
}

/** What it takes to draw from a law. */
export function delayTables(law: BurstDelayLaw): DelayTables {
  const knots = law.starts.map((start) => start.firstKnot);
  const tables = law.starts.map((start) => new AliasTable(start.weights));
  // The phase after the last is the first, a period on.
  return {
    law,
    tables: [...tables, tables[0]!],
    firstKnots: Float64Array.from([...knots, knots[0]! + law.perPeriod]),
  };
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
 * `burstDelayLaw`. `BurstDetector` is what tests hold it to.
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
    const { law, tables, firstKnots } = this.tables;
    const { periodsPerCycle, perPeriod } = law;
    const perKnot = law.period / perPeriod;
    const starts = law.starts.length;
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
