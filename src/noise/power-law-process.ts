import type { RandomStream } from "../numeric/index.ts";
import type { NoiseLevels } from "./noise-levels.ts";
import { phaseLadder } from "./phase-ladder.ts";
import { rateLadder } from "./rate-ladder.ts";
import { RelaxationBank } from "./relaxation-bank.ts";
import { StepCache } from "./step-cache.ts";
import { StridedBank } from "./strided-bank.ts";

/** Places in the state of a process. */
const accumulatedAt = 0;
const varianceAt = 1;
const phaseAt = 2;
const stepAt = 3;

/** Equal steps made at one go, at most. */
export const mostSteps = 128;

/** The way a process came in its last steps, one number a step where nothing else is said. */
export interface ProcessPath {
  /** How many steps. */
  readonly steps: number;
  /** Accumulated time error after each step; s. */
  readonly accumulated: Float64Array;
  /** What white FM and the singled terms, beyond the mean given their end values, added in each step; s. */
  readonly residuals: Float64Array;
  /** Singled terms of frequency noise at the start and after each step, term by term: rows of `steps` + 1. */
  readonly rates: Float64Array;
  /** Singled terms of flicker PM, in the same way; s. */
  readonly phaseTerms: Float64Array;
}

/** The path and what it is made from. */
interface PathRoom extends ProcessPath {
  steps: number;
  /** What each step adds to the time error; s. */
  readonly increments: Float64Array;
  /** Flicker PM after each step; s. */
  readonly phases: Float64Array;
  readonly rateDeviates: Float64Array;
  readonly phaseDeviates: Float64Array;
}

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
  private readonly hasStrides: boolean;
  private readonly stream: RandomStream;
  private readonly edgeStream: RandomStream;
  private rateSum: StridedBank;
  private phaseSum: StridedBank;
  private singled: SingledTerms;
  private readonly state = new Float64Array(4);
  private steps: StepCache<ProcessStep>;
  private room: PathRoom;

  /**
   * @param levels - the five noise levels
   * @param finestStep - shortest time over which anybody looks at this noise: the smallest step asked for,
   *   or less where a loop follows it (see `relaxationLadder`); s, > 0
   * @param stream - random stream of this process alone
   * @param edgeStream - stream of the independent deviates of edges; a stream of its own keeps everything
   *   else as it is whatever edges are looked at
   * @param hasStrides - whether ladders may go by strides: faster, other draws, the same law
   * @throws RangeError if finestStep is not above 0
   */
  constructor(
    levels: NoiseLevels,
    finestStep: number,
    stream: RandomStream,
    edgeStream: RandomStream = stream,
    hasStrides = true,
  ) {
    this.levels = levels;
    this.finestStep = finestStep;
    this.hasStrides = hasStrides;
    this.stream = stream;
    this.edgeStream = edgeStream;
    const rate = rateLadder(levels, finestStep);
    const phase = phaseLadder(levels, finestStep);
    this.whiteRateLevel = rate.whiteLevel;
    const rateTerms = RelaxationBank.stationary(rate.timeConstants, rate.diffusions, stream);
    const phaseTerms = RelaxationBank.stationary(phase.timeConstants, phase.diffusions, stream);
    this.rateSum = new StridedBank(rateTerms, "integral", stream, hasStrides);
    this.phaseSum = new StridedBank(phaseTerms, "sum", stream, hasStrides);
    const none = new Int32Array(0);
    this.singled = { rate: rateTerms.part(none), phase: phaseTerms.part(none) };
    this.room = roomFor(this.singled);
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

  /** Variance of the residual (`ProcessPath`) of the last step; s². */
  get pooledVariance(): number {
    return this.state[varianceAt]!;
  }

  /** The way of the last call of `advance`. */
  get path(): ProcessPath {
    return this.room;
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
    const { singled, stream, hasStrides } = this;
    if (singled.rate.after.length + singled.phase.after.length > 0) {
      throw new RangeError("PowerLawProcess.single: terms must be singled out once only");
    }
    const others = (bank: RelaxationBank, places: Int32Array) =>
      bank.part(Int32Array.from(bank.after.keys()).filter((k) => !places.includes(k)));
    const rates = this.rateSum.settle();
    const phases = this.phaseSum.settle();
    this.singled = { rate: rates.part(rate), phase: phases.part(phase) };
    this.room = roomFor(this.singled);
    this.rateSum = new StridedBank(others(rates, rate), "integral", stream, hasStrides);
    this.phaseSum = new StridedBank(others(phases, phase), "sum", stream, hasStrides);
    this.steps = new StepCache((dt) => this.makeStep(dt));
    return this.singled;
  }

  /**
   * Advances the process in exact steps, all equally long. The values at each are in `path`.
   *
   * @param dt - step; s, > 0
   * @param steps - how many; from 1 to `mostSteps`. What is drawn does not depend on how many are made at a time.
   * @throws RangeError if dt is not a finite number above 0, or steps out of range
   */
  advance(dt: number, steps = 1): void {
    if (!(dt > 0 && dt < Infinity)) {
      throw new RangeError(`PowerLawProcess.advance: dt must be > 0 s, got ${dt}`);
    }
    if (!(steps >= 1 && steps <= mostSteps)) {
      throw new RangeError(
        `PowerLawProcess.advance: steps must be from 1 to ${mostSteps}, got ${steps}`,
      );
    }
    const { rateFactors, phaseFactors, pooledVariance, pooledDeviation } = this.steps.at(dt);
    const { state, singled, room } = this;
    this.draw(dt, pooledDeviation, steps);
    if (singled.rate.after.length > 0) this.walkRate(rateFactors, steps);
    if (singled.phase.after.length > 0) this.walkPhase(phaseFactors, steps);
    let accumulated = state[accumulatedAt]!;
    for (let i = 0; i < steps; i++) {
      accumulated += room.increments[i]!;
      room.accumulated[i] = accumulated;
    }
    room.steps = steps;
    state[accumulatedAt] = accumulated;
    state[varianceAt] = pooledVariance;
    state[phaseAt] = room.phases[steps - 1]!;
    state[stepAt] = dt;
  }

  /** The deviates of all steps, in order of time, and what is seen of the terms that are not stepped singly. */
  private draw(dt: number, deviation: number, steps: number): void {
    const { singled, stream, rateSum, phaseSum } = this;
    const { residuals, increments, phases, rateDeviates, phaseDeviates } = this.room;
    const rates = singled.rate.after.length;
    const phaseTerms = singled.phase.after.length;
    for (let i = 0; i < steps; ) {
      // As far as the sums draw nothing, the residuals' deviates follow each other.
      const ready = rates + phaseTerms > 0 ? 1 : Math.min(rateSum.ready(dt), phaseSum.ready(dt));
      const end = Math.min(steps, i + Math.max(1, ready));
      if (deviation > 0) stream.fillNormal(residuals, i, end);
      for (let k = i; k < end; k++) {
        const residual = deviation > 0 ? deviation * residuals[k]! : 0;
        residuals[k] = residual;
        increments[k] = residual;
        phases[k] = 0;
      }
      rateSum.advanceAlong(dt, increments, i, end);
      if (rates > 0) stream.fillNormal(rateDeviates, i * rates, end * rates);
      phaseSum.advanceAlong(dt, phases, i, end);
      if (phaseTerms > 0) stream.fillNormal(phaseDeviates, i * phaseTerms, end * phaseTerms);
      i = end;
    }
  }

  /** Steps of the singled terms of frequency noise: the mean of their ∫y, given both ends, is added. */
  private walkRate(factors: Float64Array, steps: number): void {
    const { increments, rateDeviates, rates } = this.room;
    const bank = this.singled.rate;
    const terms = bank.after.length;
    bank.walk(factors, steps, rateDeviates, 0, terms, rates);
    for (let i = 0; i < steps; i++) {
      let mean = 0;
      for (let k = 0, at = i; k < terms; k++, at += steps + 1) {
        mean += factors[3 * k + 2]! * (rates[at]! + rates[at + 1]!);
      }
      increments[i] = increments[i]! + mean;
    }
  }

  /** Steps of the singled terms of flicker PM, whose sum is added. */
  private walkPhase(factors: Float64Array, steps: number): void {
    const { phases, phaseDeviates, phaseTerms } = this.room;
    const bank = this.singled.phase;
    bank.walk(factors, steps, phaseDeviates, 0, bank.after.length, phaseTerms);
    bank.addSums(phaseTerms, steps, phases);
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

/** Room for the way of many steps. */
function roomFor({ rate, phase }: SingledTerms): PathRoom {
  const column = () => new Float64Array(mostSteps);
  const terms = (bank: RelaxationBank) => new Float64Array(bank.after.length * (mostSteps + 1));
  return {
    steps: 0,
    accumulated: column(),
    residuals: column(),
    rates: terms(rate),
    phaseTerms: terms(phase),
    increments: column(),
    phases: column(),
    rateDeviates: terms(rate),
    phaseDeviates: terms(phase),
  };
}
