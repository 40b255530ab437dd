import { cosTurns, exp, sinTurns } from "../../numeric/index.ts";
import type { NoiseTerm } from "../../theory/index.ts";

/** Detection delay against the phase of the tone at the start of a burst, at equally spaced phases. */
export interface DelayByPhase {
  /** Mean delay at phase i/n; s, n values. */
  readonly mean: ArrayLike<number>;
  /** Variance of the delay at phase i/n; s², n values. */
  readonly variance: ArrayLike<number>;
  /** Probabilities that a burst that arrives makes no step: it ends uncrossed, or begins above the threshold. */
  readonly missProbability: number;
  readonly blockedProbability: number;
}

/**
 * What a free tone and the detector add to the time error of a tick.
 *
 * The mean delay is a function of the tone's phase, which advances by the same part of a turn from tick to
 * tick: its harmonics are lines. About its mean the delay scatters independently from tick to tick. Where the
 * synthesizer's jitter moves the edge by σ turns of the tone, harmonic h keeps e^{−(2πhσ)²} of its variance as
 * a line; the rest scatters with the jitter, taken as independent from tick to tick.
 *
 * @param delay - detection delay by phase
 * @param turnsPerTick - advance of the tone's phase from tick to tick; turns
 * @param tickPeriod - s, > 0
 * @param jitterTurns - rms jitter of the edges in turns of the tone; >= 0
 * @returns a white term of the receiver and, where the mean depends on phase, lines of the drive
 *
 * Source: Fourier series of the mean delay; e^{−(2πhσ)²/2} of the amplitude left is the characteristic
 * function of a Gaussian. Exact case: a mean that is the same at all phases gives no line.
 */
export function beatNoise(
  delay: Pick<DelayByPhase, "mean" | "variance">,
  turnsPerTick: number,
  tickPeriod: number,
  jitterTurns: number,
): readonly NoiseTerm[] {
  const n = delay.mean.length;
  const advance = turnsPerTick - Math.round(turnsPerTick);
  let scatter = 0;
  for (let i = 0; i < n; i++) scatter += delay.variance[i]! / n;
  let smeared = 0;
  const lines = [];
  for (let h = 1; 2 * h <= n; h++) {
    const amplitude = delaySwing(delay.mean, h);
    const power = (2 * h === n ? 1 : 0.5) * amplitude * amplitude;
    const jitter = 2 * Math.PI * h * jitterTurns;
    const kept = exp(-jitter * jitter);
    const turns = h * advance;
    smeared += power * (1 - kept);
    lines.push({ frequency: (turns - Math.round(turns)) / tickPeriod, variance: power * kept });
  }
  const total = lines.reduce((sum, line) => sum + line.variance, 0);
  const terms: NoiseTerm[] = [];
  if (scatter > 0) {
    const shape = { type: "white", variance: scatter } as const;
    terms.push({ stage: "receiver", cause: "detection delay about its mean", shape });
  }
  if (total > 1e-12 * scatter && total > 0) {
    terms.push({
      stage: "drive",
      cause: "start phase of the tone",
      shape: { type: "lines", lines },
    });
  }
  if (smeared > 1e-12 * scatter && smeared > 0) {
    const shape = { type: "white", variance: smeared } as const;
    terms.push({ stage: "drive", cause: "start phase of the tone, smeared by noise", shape });
  }
  return terms;
}

/**
 * How far the mean delay swings to either side with a harmonic of the tone.
 *
 *   |2/n·Σ mean_i·e^{−2πi·h·i/n}|
 *
 * Where q periods of the tone nearly fit p bursts, the average over the q branches swings with harmonic q alone.
 *
 * @param mean - mean delay at phase i/n of the tone; s
 * @param harmonic - h; integer >= 1
 * @returns amplitude; s, 0 where the phases are too few to tell
 *
 * Source: Fourier series. Exact case: plain gating, whose delay is a sawtooth of the phase, gives T/(πh).
 */
export function delaySwing(mean: ArrayLike<number>, harmonic: number): number {
  const n = mean.length;
  if (2 * harmonic > n) return 0;
  let re = 0;
  let im = 0;
  for (let i = 0; i < n; i++) {
    const turns = ((harmonic * i) % n) / n;
    re += mean[i]! * cosTurns(turns);
    im += mean[i]! * sinTurns(turns);
  }
  return ((2 * harmonic === n ? 1 : 2) * Math.sqrt(re * re + im * im)) / n;
}
