/** Ratio of neighbouring frequencies: 10^⅛. */
const stride = Math.sqrt(Math.sqrt(Math.sqrt(10)));

/**
 * Frequencies on which spectra of a series of edges are compared, eight a decade, up to half the rate of the
 * edges; what a spectrum holds above that is folded onto all of them evenly.
 */
export class FoldedGrid {
  private readonly below: number[] = [];
  private readonly above: number[] = [];
  private readonly half: number;

  /**
   * @param lowest - lowest frequency; Hz, > 0
   * @param half - half the rate of the edges; Hz
   * @param highest - where spectra may be taken to end; Hz
   */
  constructor(lowest: number, half: number, highest: number) {
    this.half = half;
    for (let f = Math.min(lowest, half); f <= half; f *= stride) {
      this.below.push(f);
    }
    for (let f = half * Math.sqrt(stride); f <= highest; f *= stride) {
      this.above.push(f);
    }
  }

  /**
   * A spectrum as a series of edges shows it.
   *
   *   S(f) + (1/half)·∫ S df above half the rate
   *
   * @param density - one-sided spectral density at a frequency in Hz
   * @returns values at the frequencies of the grid; unit of the density
   *
   * Source: sampling theorem, with the folded part taken as white. Exact case: a density that ends below
   * half the rate is itself.
   */
  spectrum(density: (f: number) => number): Float64Array {
    let folded = 0;
    // Midpoint rule over log f: each value stands for f·(√stride − 1/√stride).
    const width = Math.sqrt(stride) - 1 / Math.sqrt(stride);
    for (const f of this.above) {
      folded += density(f) * f * width;
    }
    return Float64Array.from(this.below, (f) => density(f) + folded / this.half);
  }
}
