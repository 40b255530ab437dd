import type { RandomStream } from "../numeric/random-stream.ts";
import type { NoiseLevels } from "./noise-levels.ts";
import { phaseLadder } from "./phase-ladder.ts";
import { rateLadder } from "./rate-ladder.ts";
import { RelaxationBank } from "./relaxation-bank.ts";
import { StepCache } from "./step-cache.ts";

/** Places in the state of a process. */
const accumulatedAt = 0;
const residualAt = 1;
const varianceAt = 2;
const phaseAt = 3;
const stepAt = 4;

/** Coefficients of one step. */
interface ProcessStep {
  readonly rateFactors: Float64Array;
  readonly phaseFactors: Float64Array;
  readonly pooledVariance: number;
  readonly pooledDeviation: number;
}

/**
 * The random part of an oscillator: five power-law noises, advanced exactly over steps of any length.
 *
 * Frequency noise (white, flicker as a ladder of relaxation processes, random walk) adds up to the time
 * error x = ∫y dt. Given the values of every relaxation process and of the random walk at both ends of a
 * step, all that is left of ∫y is one Gaussian, so a step takes one deviate a process and one more. Flicker PM
 * is a ladder on the time error itself, white PM an independent deviate of each edge looked at.
 *
 * Sources: IEEE Std 1139 (levels); Gillespie, Phys. Rev. E 54, 2084 (1996) (exact steps).
 */
export class PowerLawProcess {
  readonly levels: NoiseLevels;
  /** Shortest time over which anybody looks at this noise; s. */
  readonly finestStep: number;
  /** Flicker FM, and random-walk FM last where there is any (T = ∞): fractional frequency. */
  readonly rateTerms: RelaxationBank;
  /** Flicker PM: time error in s. */
  readonly phaseTerms: RelaxationBank;
  /** White FM level with all that is too fast to tell from it; 1/Hz. */
  readonly whiteRateLevel: number;
  /** Rms of the independent part of an edge: white PM and flicker PM too fast to follow; s. */
  readonly edgeRms: number;
  private readonly stream: RandomStream;
  private readonly edgeStream: RandomStream;
  private readonly state = new Float64Array(5);
  private readonly steps: StepCache<ProcessStep>;

  /**
   * @param levels - the five noise levels
   * @param finestStep - shortest time over which anybody looks at this noise: the smallest step asked for,
   *   or less where a loop follows it (see `relaxationLadder`); s, > 0
   * @param stream - random stream of this process alone
   * @param edgeStream - stream of the independent deviates of edges; a stream of its own keeps everything
   *   else as it is whatever edges are looked at
   * @throws RangeError if finestStep is not above 0
   */
  constructor(
    levels: NoiseLevels,
    finestStep: number,
    stream: RandomStream,
    edgeStream: RandomStream = stream,
  ) {
    this.levels = levels;
    this.finestStep = finestStep;
    this.stream = stream;
    this.edgeStream = edgeStream;
    const rate = rateLadder(levels, finestStep);
    const phase = phaseLadder(levels, finestStep);
    this.whiteRateLevel = rate.whiteLevel;
    this.rateTerms = new RelaxationBank(rate.timeConstants, rate.diffusions, stream);
    this.phaseTerms = new RelaxationBank(phase.timeConstants, phase.diffusions, stream);
    this.state[phaseAt] = this.phaseTerms.sum();
    this.edgeRms = Math.sqrt(
      levels.whitePmRms * levels.whitePmRms + phase.fastTimes.length * phase.variance,
    );
    this.steps = new StepCache((dt) => this.makeStep(dt));
  }

  /** Accumulated time error of the frequency noise, 0 at the start; s. */
  get accumulated(): number {
    return this.state[accumulatedAt]!;
  }

  /** What the last step added to the time error beyond its mean given all end values; s. */
  get pooledResidual(): number {
    return this.state[residualAt]!;
  }

  /** Variance of `pooledResidual` in the last step; s². */
  get pooledVariance(): number {
    return this.state[varianceAt]!;
  }

  /** Length of the last step, 0 before the first; s. */
  get lastStep(): number {
    return this.state[stepAt]!;
  }

  /**
   * Flicker PM now, without what is too fast to follow.
   *
   * @returns time error to be added to `accumulated`; s
   */
  phaseNoise(): number {
    return this.state[phaseAt]!;
  }

  /**
   * Advances the process in one exact step.
   *
   * @param dt - step; s, > 0
   * @throws RangeError if dt is not a finite number above 0
   */
  advance(dt: number): void {
    if (!(dt > 0 && dt < Infinity)) {
      throw new RangeError(`PowerLawProcess.advance: dt must be > 0 s, got ${dt}`);
    }
    const step = this.steps.at(dt);
    const state = this.state;
    const mean = this.rateTerms.advance(step.rateFactors, this.stream);
    const residual = step.pooledDeviation * this.stream.normal();
    state[accumulatedAt] = state[accumulatedAt]! + mean + residual;
    state[residualAt] = residual;
    state[varianceAt] = step.pooledVariance;
    state[stepAt] = dt;
    if (this.phaseTerms.after.length > 0) {
      this.phaseTerms.advance(step.phaseFactors, this.stream);
      state[phaseAt] = this.phaseTerms.sum();
    }
  }

  /**
   * The independent part of the time error of one edge looked at: white PM and the fastest flicker PM.
   *
   * @returns a new deviate at each call; s
   */
  edgeDeviate(): number {
    return this.edgeRms === 0 ? 0 : this.edgeRms * this.edgeStream.normal();
  }

  private makeStep(dt: number): ProcessStep {
    const rate = this.rateTerms.step(dt);
    const phase = this.phaseTerms.step(dt);
    const pooledVariance = rate.residualVariance + 0.5 * this.whiteRateLevel * dt;
    return {
      rateFactors: rate.factors,
      phaseFactors: phase.factors,
      pooledVariance,
      pooledDeviation: Math.sqrt(pooledVariance),
    };
  }
}
