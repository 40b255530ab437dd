import type { RandomStream } from "../../numeric/index.ts";
import { sinTurns, twoProductError } from "../../numeric/index.ts";
import type { Spur } from "./synthesizer-parameters.ts";

/**
 * Spurious lines of a synthesizer: sinusoids in time error, each with a phase drawn for the whole run.
 *
 *   Σ A·sin(2π·(f·u + φ))
 *
 * The product f·u is taken exactly before its whole cycles are dropped, so the phase is as good at 1e9 s as
 * at the start.
 */
export class SpurLines {
  private readonly frequencies: Float64Array;
  private readonly amplitudes: Float64Array;
  private readonly phases: Float64Array;

  /**
   * @param spurs - the lines
   * @param stream - gives their phases
   */
  constructor(spurs: readonly Spur[], stream: RandomStream) {
    this.frequencies = Float64Array.from(spurs, (spur) => spur.frequencyHz);
    this.amplitudes = Float64Array.from(spurs, (spur) => spur.timeAmplitude);
    this.phases = Float64Array.from(spurs, () => stream.uniform());
  }

  /**
   * Adds the sum of the lines at many nominal times.
   *
   * @param u - nominal times; s
   * @param times - how many
   * @param out - to which the time errors are added; s
   */
  addTo(u: Float64Array, times: number, out: Float64Array): void {
    if (this.frequencies.length === 0) return;
    for (let i = 0; i < times; i++) out[i] = out[i]! + this.at(u[i]!);
  }

  /**
   * Sum of the lines at a nominal time.
   *
   * @param u - nominal time; s
   * @returns time error; s
   */
  at(u: number): number {
    let sum = 0;
    for (let k = 0; k < this.frequencies.length; k++) {
      const f = this.frequencies[k]!;
      const cycles = f * u;
      const part = cycles - Math.floor(cycles) + twoProductError(f, u, cycles);
      sum += this.amplitudes[k]! * sinTurns(part + this.phases[k]!);
    }
    return sum;
  }
}
