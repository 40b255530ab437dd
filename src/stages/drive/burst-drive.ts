import type { Instant, RandomStream } from "../../numeric/index.ts";
import { twoProductError } from "../../numeric/index.ts";
import type { DriveParameters } from "./drive-parameters.ts";

/**
 * The tone whose bursts the synthesizer's edges open: its phase at an edge, and what a burst has of its own.
 *
 *   phase(t) = φ₀ + f_c·(1 + offset)·t mod 1   (free; locked: 0)
 *   amplitude = A·max(0, 1 + relative·g), g a standard Gaussian: a tone can fade to nothing, not below
 *
 * The stream gives φ₀ when the drive is made (always, so that a lock changes no other draw); then, burst by
 * burst, one uniform deviate for the drop and, if it arrives, one Gaussian for the amplitude; none where
 * the probability or the noise is zero.
 */
export class BurstDrive {
  private readonly isLocked: boolean;
  private readonly startPhase: number;
  private readonly carrierHz: number;
  private readonly offsetHz: number;
  private readonly amplitude: number;
  private readonly amplitudeNoise: number;
  private readonly dropProbability: number;
  private readonly stream: RandomStream;

  /**
   * @param parameters - tone and burst
   * @param stream - deviates of the drive
   */
  constructor(parameters: DriveParameters, stream: RandomStream) {
    this.isLocked = parameters.carrierLock === "locked";
    this.carrierHz = parameters.carrierHz;
    this.offsetHz = parameters.carrierHz * parameters.carrierFractionalOffset;
    this.amplitude = parameters.amplitudeV;
    this.amplitudeNoise = parameters.amplitudeNoise;
    this.dropProbability = parameters.dropProbability;
    this.stream = stream;
    this.startPhase = stream.uniform();
  }

  /**
   * Phase of the tone at a moment, the products taken exactly: good to a part in 1e12 of a turn times the carrier in
   * kHz, at any t.
   *
   * @param instant - the moment, as an edge that opens a burst
   * @returns phase; turns, 0 ≤ phase < 1
   */
  phaseAt(instant: Instant): number {
    return this.isLocked ? 0 : this.phaseWithin(this.turnsUntil(instant.whole), instant.fraction);
  }

  /**
   * Phases of the tone at many moments in order of time, as `phaseAt` gives them.
   *
   * @param wholes - whole seconds of the moments
   * @param fractions - their remainders; s
   * @param moments - how many
   * @param out - receives the phases; turns, 0 ≤ phase < 1
   */
  phases(wholes: Float64Array, fractions: Float64Array, moments: number, out: Float64Array): void {
    if (this.isLocked) {
      out.fill(0, 0, moments);
      return;
    }
    let whole = Number.NaN;
    let turns = 0;
    for (let i = 0; i < moments; i++) {
      // Several bursts share a second.
      if (wholes[i]! !== whole) {
        whole = wholes[i]!;
        turns = this.turnsUntil(whole);
      }
      out[i] = this.phaseWithin(turns, fractions[i]!);
    }
  }

  /** Turns of the tone up to a whole second, less whole ones. */
  private turnsUntil(whole: number): number {
    return turnsOf(this.carrierHz, whole) + turnsOf(this.offsetHz, whole);
  }

  /** Phase at a fraction of a second after that. */
  private phaseWithin(turnsOfWhole: number, fraction: number): number {
    const turns = turnsOfWhole + (this.carrierHz + this.offsetHz) * fraction + this.startPhase;
    const phase = turns - Math.floor(turns);
    return phase < 1 ? phase : 0;
  }

  /**
   * Whether the next burst does not arrive at all.
   *
   * @returns true with the drop probability
   */
  drawDrop(): boolean {
    return this.dropProbability > 0 && this.stream.uniform() < this.dropProbability;
  }

  /**
   * Peak amplitude of the next burst.
   *
   * @returns amplitude; V, ≥ 0
   */
  drawAmplitude(): number {
    if (this.amplitudeNoise === 0) return this.amplitude;
    return this.amplitude * Math.max(0, 1 + this.amplitudeNoise * this.stream.normal());
  }
}

/** f·t less whole turns, without rounding of the product. */
function turnsOf(frequency: number, seconds: number): number {
  const product = frequency * seconds;
  return product - Math.floor(product) + twoProductError(frequency, seconds, product);
}
