import { PowerLawProcess } from "../../noise/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import { Instant } from "../../numeric/index.ts";
import type { FallbackParameters } from "./clock-parameters.ts";

/**
 * The clock's own oscillator, which ticks while the drive is lost: the first tick at the moment it takes
 * over, then one every period of its own.
 */
export class FallbackOscillator {
  /** When it ticks next. */
  readonly next = new Instant();
  /** Nominal time from the tick before to the next one; s. */
  lapse = 0;
  private readonly base = new Instant();
  private readonly noise: PowerLawProcess;
  private readonly period: number;
  private readonly truePeriod: number;
  private ticked = 0;
  private noiseAtBase = 0;

  /**
   * @param parameters - offset and noise
   * @param tickHz - nominal rate of the tick; Hz
   * @param stream - its random stream
   * @param hasStrides - as of `PowerLawProcess`
   */
  constructor(
    parameters: FallbackParameters,
    tickHz: number,
    stream: RandomStream,
    hasStrides = true,
  ) {
    this.period = 1 / tickHz;
    this.truePeriod = this.period / (1 + parameters.fractionalOffset);
    this.noise = new PowerLawProcess(parameters.noise, this.period, stream, stream, hasStrides);
  }

  /** Takes over: ticks at once. */
  begin(at: Instant): void {
    this.base.copy(at);
    this.next.copy(at);
    this.ticked = 0;
    this.lapse = 0;
    this.noiseAtBase = this.noise.accumulated + this.noise.phaseNoise();
  }

  /**
   * Moves `next` on.
   *
   * @param ticks - to the how-many-th tick from here; integer >= 1
   */
  advance(ticks: number): void {
    this.ticked += ticks;
    this.lapse = ticks * this.period;
    this.noise.advance(this.lapse);
    this.next.setCycle(this.ticked, this.truePeriod);
    this.next.add(this.base.fraction);
    this.next.add(this.base.whole);
    this.next.add(
      this.noiseAtBase -
        this.noise.accumulated -
        this.noise.phaseNoise() -
        this.noise.edgeDeviate(),
    );
  }

  /** Whole periods that surely pass before a moment; integer >= 0. */
  periodsBefore(moment: Instant): number {
    const wait = moment.minus(this.next);
    if (wait === Number.POSITIVE_INFINITY) return 0;
    return Math.max(0, Math.floor((wait / this.truePeriod) * (1 - 1e-6)) - 1);
  }
}
