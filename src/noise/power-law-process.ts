import type { RandomStream } from "../numeric/random-stream.ts";
import type { NoiseLevels } from "./noise-levels.ts";
import { phaseLadder } from "./phase-ladder.ts";
import { rateLadder } from "./rate-ladder.ts";
import { RelaxationBank } from "./relaxation-bank.ts";
import { StepCache } from "./step-cache.ts";
import { StridedBank } from "./strided-bank.ts";

/** Places in the state of a process. */
const accumulatedAt = 0;
const residualAt = 1;
const varianceAt = 2;
const phaseAt = 3;
const stepAt = 4;

/** Coefficients of one step of what is stepped singly. */
interface ProcessStep {
  readonly rateFactors: Float64Array;
  readonly phaseFactors: Float64Array;
  readonly pooledVariance: number;
  readonly pooledDeviation: number;
}

/** Terms of a process that are stepped singly, so that their values at both ends of a step are known. */
export interface SingledTerms {
  /** Frequency noise; fractional frequency. */
  readonly rate: RelaxationBank;
  /** Flicker PM; s. */
  readonly phase: RelaxationBank;
}

/**
 * The random part of an oscillator: five power-law noises, advanced exactly over steps of any length.
 *
 * Frequency noise (white, flicker as a ladder of relaxation processes, random walk) adds up to the time
 * error x = ∫y dt; flicker PM is a ladder on the time error itself, white PM an independent deviate of each
 * edge looked at. Of either ladder only the sum is seen, so both go by strides (`StridedBank`), but for terms
 * that a loop follows one by one (`single`): given their values at both ends of a step, all that is left of
 * their ∫y and white FM is one Gaussian, the pooled residual.
 *
 * Sources: IEEE Std 1139 (levels); Gillespie, Phys. Rev. E 54, 2084 (1996) (exact steps).
 */
export class PowerLawProcess {
  readonly levels: NoiseLevels;
  /** Shortest time over which anybody looks at this noise; s. */
  readonly finestStep: number;
  /** White FM level with all that is too fast to tell from it; 1/Hz. */
  readonly whiteRateLevel: number;
  /** Rms of the independent part of an edge: white PM and flicker PM too fast to follow; s. */
  readonly edgeRms: number;
  private readonly stream: RandomStream;
  private readonly edgeStream: RandomStream;
  private rateSum: StridedBank;
  private phaseSum: StridedBank;
  private singled: SingledTerms;
  private readonly state = new Float64Array(5);
  private steps: StepCache<ProcessStep>;

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
    const rateTerms = RelaxationBank.stationary(rate.timeConstants, rate.diffusions, stream);
    const phaseTerms = RelaxationBank.stationary(phase.timeConstants, phase.diffusions, stream);
    this.rateSum = new StridedBank(rateTerms, "integral", stream);
    this.phaseSum = new StridedBank(phaseTerms, "sum", stream);
    const none = new Int32Array(0);
    this.singled = { rate: rateTerms.part(none), phase: phaseTerms.part(none) };
    this.state[phaseAt] = phaseTerms.sum();
    this.edgeRms = Math.sqrt(
      levels.whitePmRms * levels.whitePmRms + phase.fastTimes.length * phase.variance,
    );
    this.steps = new StepCache((dt) => this.makeStep(dt));
  }

  /** Accumulated time error of the frequency noise, 0 at the start; s. */
  get accumulated(): number {
    return this.state[accumulatedAt]!;
  }

  /** What white FM and the singled terms, beyond the mean given their end values, added in the last step; s. */
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
   * Steps some terms singly from now on. Draws nothing where the process has not yet been advanced.
   *
   * @param rate - places in the ladder of frequency noise (`rateLadder`)
   * @param phase - places in that of flicker PM (`phaseLadder`)
   * @returns the terms, kept up to date by `advance`
   * @throws RangeError if terms were singled out before
   */
  single(rate: Int32Array, phase: Int32Array): SingledTerms {
    const { singled, stream } = this;
    if (singled.rate.after.length + singled.phase.after.length > 0) {
      throw new RangeError("PowerLawProcess.single: terms must be singled out once only");
    }
    const others = (bank: RelaxationBank, places: Int32Array) =>
      bank.part(Int32Array.from(bank.after.keys()).filter((k) => !places.includes(k)));
    const rates = this.rateSum.settle();
    const phases = this.phaseSum.settle();
    this.singled = { rate: rates.part(rate), phase: phases.part(phase) };
    this.rateSum = new StridedBank(others(rates, rate), "integral", stream);
    this.phaseSum = new StridedBank(others(phases, phase), "sum", stream);
    this.steps = new StepCache((dt) => this.makeStep(dt));
    return this.singled;
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
    const { state, singled, stream } = this;
    const deviation = step.pooledDeviation;
    const residual = deviation > 0 ? deviation * stream.normal() : 0;
    let added = residual + this.rateSum.advance(dt);
    if (singled.rate.after.length > 0) {
      added += singled.rate.advance(step.rateFactors, stream);
    }
    state[accumulatedAt] = state[accumulatedAt]! + added;
    state[residualAt] = residual;
    state[varianceAt] = step.pooledVariance;
    state[stepAt] = dt;
    let phase = this.phaseSum.advance(dt);
    if (singled.phase.after.length > 0) {
      singled.phase.advance(step.phaseFactors, stream);
      phase += singled.phase.sum();
    }
    state[phaseAt] = phase;
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
    const rate = this.singled.rate.step(dt);
    const phase = this.singled.phase.step(dt);
    const pooledVariance = rate.residualVariance + 0.5 * this.whiteRateLevel * dt;
    return {
      rateFactors: rate.factors,
      phaseFactors: phase.factors,
      pooledVariance,
      pooledDeviation: Math.sqrt(pooledVariance),
    };
  }
}
