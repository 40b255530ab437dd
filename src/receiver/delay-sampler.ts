import { AliasTable } from "../numeric/alias-table.ts";
import type { RandomStream } from "../numeric/random-stream.ts";
import type { DelayByPhase } from "./delay-by-phase.ts";

/** One over the number of 32-bit words. */
const perWord = 2.3283064365386963e-10;

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
 * errs by h²/8·∂²F/∂φ² at most, 1e-4 with sixteen phases. `BurstDetector` is what tests hold it to.
 */
export class DelaySampler {
  private readonly law: DelayByPhase;
  private readonly tables: readonly AliasTable[];
  private readonly stream: RandomStream;

  /**
   * @param law - the law
   * @param stream - deviates of the receiver
   */
  constructor(law: DelayByPhase, stream: RandomStream) {
    this.law = law;
    this.tables = law.starts.map((start) => new AliasTable(start.weights));
    this.stream = stream;
  }

  /**
   * One burst.
   *
   * @param phaseTurns - phase of the tone at its start; turns, 0 ≤ phase < 1
   * @returns time from the start of the burst to the step; s
   */
  draw(phaseTurns: number): number {
    const { law, tables, stream } = this;
    const turns = phaseTurns * law.periodsPerCycle;
    const x = turns - Math.floor(turns);
    const at = x * tables.length;
    let start = Math.floor(at);
    let knot = 0;
    if (tables.length > 1 && stream.word() * perWord < at - start) {
      start++;
      if (start === tables.length) {
        start = 0;
        knot = law.perPeriod;
      }
    }
    knot += law.starts[start]!.firstKnot + tables[start]!.draw(stream.word() * perWord);
    const about = (stream.word() - stream.word()) * perWord;
    return ((knot + about) / law.perPeriod - x) * law.period;
  }
}
