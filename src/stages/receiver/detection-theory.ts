import { exp, normalCdf, RandomStream } from "../../numeric/index.ts";
import { amplitudeNodes } from "./amplitude-nodes.ts";
import { BurstDetector } from "./burst-detector.ts";
import { type BurstGrid, burstGrid } from "./burst-grid.ts";
import { MissProbability } from "./miss-probability.ts";
import { PassageKernel } from "./passage-kernel.ts";
import { periodicInterpolation } from "./periodic-interpolation.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** A tone and how its phase stands to the bursts. */
export interface TheoryTone extends ReceivedTone {
  readonly carrierLock: "free" | "locked";
}

/** What theory says of the delay from the start of a burst to its step, given that there is one. */
export interface DetectionTheory {
  /** Mean over noise, amplitude and (free tone) phase; s. NaN where no burst makes a step. */
  readonly meanDelay: number;
  /** Standard deviation over the same; s. */
  readonly rmsDelay: number;
  /** Probability that a burst that arrives makes no step; an upper bound where below 1e-3. */
  readonly missProbability: number;
  /**
   * Mean delay of bursts that begin at k/64 turns of the tone, k = 0, …, 63; s. Where none of them makes a step, the
   * mean over all phases.
   */
  readonly meanAt: Float64Array;
  /** Variance of the delay at the same phases; s². */
  readonly varianceAt: Float64Array;
}

/** Phases of a turn in the result. */
export const phasesPerTurn = 64;

/** The amplitude's Gaussian is cut off here; standard deviations. */
const amplitudeCut = 4.5;

/** Amplitudes looked at where the noise is frozen. */
const frozenNodes = 121;

/** A miss probability bounded below this needs no closer look. */
const negligible = 1e-12;

/** From here on the share of bursts without a step is known better from the delays than as a bound. */
const plain = 0.01;

/** Shares of bursts with a step: below the first there is no delay to speak of; phases that differ by more jump. */
const silent = 1e-3;
const uneven = 0.1;

/**
 * Delay and miss probability of a burst after a long silence (no charge, stationary noise), by theory.
 *
 * The first-passage density (`PassageKernel`) at each start phase and amplitude, its moments averaged over
 * the amplitude's Gaussian by the trapezoid rule, which converges geometrically for it. Where the noise
 * hardly moves during the approach (`burstGrid`, and without noise) each delay follows from the closed form
 * of the charge, the noise being a spread of the threshold.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @returns the theory; mean good to 1e-3 of itself, standard deviation to 1e-2 (half wave with less than ten cycles in
 *   the time constant: 5e-3 and 2e-2), as long as the noise is below a quarter of the threshold: beyond, bursts that
 *   begin above the threshold are not told apart
 * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
 *
 * Source: Buonocore, Nobile, Ricciardi 1987 (see `PassageKernel`); averages by quadrature. Exact case: no
 * noise, where the delay is the closed form's.
 */
export function detectionTheory(receiver: ReceiverParameters, tone: TheoryTone): DetectionTheory {
  const rectified = new RectifiedTone(
    receiver,
    tone.carrierHz * (1 + tone.carrierFractionalOffset),
  );
  const isLocked = tone.carrierLock === "locked";
  const grid = receiver.noiseV > 0 ? burstGrid(receiver, tone, rectified) : null;
  const moments =
    grid === null || grid.isFrozen
      ? frozenMoments(receiver, tone)
      : passageMoments(receiver, tone, rectified, grid);
  const meanAt = new Float64Array(phasesPerTurn);
  const varianceAt = new Float64Array(phasesPerTurn);
  const shares = new Float64Array(phasesPerTurn);
  const [least, most] = [Math.min(...moments.share), Math.max(...moments.share)];
  const between = most - least > uneven * most ? straightBetween : periodicInterpolation;
  for (let k = 0; k < phasesPerTurn; k++) {
    const x = (k * rectified.periodsPerCycle) / phasesPerTurn;
    const share = between(moments.share, x);
    if (!(share > silent * moments.whole)) continue;
    const mean = between(moments.first, x) / share;
    shares[k] = share;
    meanAt[k] = mean;
    varianceAt[k] = Math.max(0, between(moments.second, x) / share - mean * mean);
  }
  const phases = isLocked ? 1 : phasesPerTurn;
  const total = average(meanAt, varianceAt, shares, phases);
  for (let k = 0; k < phasesPerTurn; k++) if (shares[k] === 0) meanAt[k] = total.mean;
  const unstepped = 1 - meanOf(shares.subarray(0, phases)) / moments.whole;
  const misses = new MissProbability(receiver, tone, isLocked);
  const bound = misses.bound(tone.amplitudeV, tone.amplitudeNoise);
  const missed = () =>
    bound < negligible ? bound : misses.at(tone.amplitudeV, tone.amplitudeNoise);
  return {
    meanDelay: total.mean,
    rmsDelay: Math.sqrt(total.variance),
    missProbability:
      bound >= negligible && unstepped > plain
        ? unstepped
        : Math.min(1, missed() + blockedByNoise(receiver)),
    meanAt,
    varianceAt,
  };
}

/** Probability that the noise alone stands above the threshold when a burst begins: then it makes no step. */
function blockedByNoise({ leak, noiseV, thresholdV }: ReceiverParameters): number {
  return leak && noiseV > 0 ? normalCdf(-thresholdV / noiseV) : 0;
}

/** Share of steps, and first and second moment of the delay weighted with it, at phases of a period. */
interface Moments {
  readonly share: Float64Array;
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** What the share comes to where every burst makes a step. */
  readonly whole: number;
}

function emptyMoments(phases: number) {
  return {
    whole: 0,
    share: new Float64Array(phases),
    first: new Float64Array(phases),
    second: new Float64Array(phases),
  };
}

/** Moments by the first-passage density. */
function passageMoments(
  receiver: ReceiverParameters,
  tone: TheoryTone,
  rectified: RectifiedTone,
  grid: BurstGrid,
): Moments {
  const moments = emptyMoments(grid.phases);
  const density = new Float64Array(Math.floor(tone.burst / grid.step));
  for (const { weight, amplitudeV } of amplitudeNodes(receiver, tone, amplitudeCut)) {
    moments.whole += weight / grid.step;
    const kernel = new PassageKernel(
      receiver,
      rectified,
      amplitudeV,
      grid.perPeriod,
      grid.step,
      density.length,
    );
    for (let k = 0; k < grid.phases; k++) {
      const filled = kernel.density((k * kernel.perPeriod) / grid.phases, density);
      for (let i = 0; i < filled; i++) {
        const t = (i + 1) * grid.step;
        const share = weight * density[i]!;
        moments.share[k]! += share;
        moments.first[k]! += share * t;
        moments.second[k]! += share * t * t;
      }
    }
  }
  return moments;
}

/** Moments by the closed form, each amplitude and each value of the frozen noise a delay. */
function frozenMoments(receiver: ReceiverParameters, tone: TheoryTone): Moments {
  const rectified = tone.carrierLock === "locked" ? 1 : phasesPerTurn;
  const phases = receiver.rectifier === "full" && rectified > 1 ? rectified / 2 : rectified;
  const moments = emptyMoments(phases);
  const quiet = { ...receiver, noiseV: 0 };
  const detector = new BurstDetector(quiet, tone, new RandomStream("no noise", "no noise"));
  const usual = detector.detect(0, tone.amplitudeV);
  const aged = receiver.leak || Number.isNaN(usual) ? 1 : (2 * usual) / receiver.timeConstant;
  const frozen = receiver.noiseV / receiver.thresholdV;
  const relative = Math.sqrt(tone.amplitudeNoise * tone.amplitudeNoise + frozen * frozen * aged);
  const reach = relative > 0 ? (frozenNodes - 1) / 2 : 0;
  for (let node = -reach; node <= reach; node++) {
    const z = reach > 0 ? (node * amplitudeCut) / reach : 0;
    moments.whole += exp(-0.5 * z * z);
  }
  for (let k = 0; k < phases; k++) {
    const phase = phases < phasesPerTurn ? k / (2 * phases) : k / phases;
    for (let node = -reach; node <= reach; node++) {
      const z = reach > 0 ? (node * amplitudeCut) / reach : 0;
      const amplitude = tone.amplitudeV * (1 + relative * z);
      if (!(amplitude > 0)) continue;
      detector.begin();
      const delay = detector.detect(phase, amplitude);
      if (Number.isNaN(delay)) continue;
      const weight = exp(-0.5 * z * z);
      moments.share[k]! += weight;
      moments.first[k]! += weight * delay;
      moments.second[k]! += weight * delay * delay;
    }
  }
  return moments;
}

/** Interpolation of equally spaced values of a period by straight lines, for what jumps from one to the next. */
function straightBetween(values: Float64Array, x: number): number {
  const at = (x - Math.floor(x)) * values.length;
  const k = Math.floor(at) % values.length;
  return values[k]! + (at - Math.floor(at)) * (values[(k + 1) % values.length]! - values[k]!);
}

const meanOf = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean and variance over the first so many phases, each with its share of steps. */
function average(
  mean: Float64Array,
  variance: Float64Array,
  share: Float64Array,
  phases: number,
): { mean: number; variance: number } {
  let weight = 0;
  let first = 0;
  for (let k = 0; k < phases; k++) {
    weight += share[k]!;
    first += share[k]! * mean[k]!;
  }
  const centre = first / weight;
  let second = 0;
  for (let k = 0; k < phases; k++) {
    const d = mean[k]! - centre;
    second += share[k]! * (variance[k]! + d * d);
  }
  return { mean: centre, variance: second / weight };
}
