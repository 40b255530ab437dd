import type { Readings } from "../readings/index.ts";
import { bestFit, leastReadings } from "./best-fit.ts";

/** A parameter with its 95 % interval; low is 0 where the noise cannot be told from none. */
export interface FittedParameter {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Noise of a clock and its counter, as far as its readings tell. */
export interface NoiseFit {
  /** Rate over the record; dimensionless. */
  readonly fractionalOffset: FittedParameter;
  /** rms time error of one edge, all causes together; s; null with dead time, where edges are not seen. */
  readonly edgeJitter: FittedParameter | null;
  /** White noise of a single reading with dead time; dimensionless; null back to back. */
  readonly readingNoise: FittedParameter | null;
  /** Allan deviation at 1 s; dimensionless; null where white FM cannot be told from the measurement's noise. */
  readonly whiteFm: FittedParameter | null;
  /** Allan deviation (floor); dimensionless. */
  readonly flickerFm: FittedParameter;
  /** Allan deviation at 1 s; dimensionless. */
  readonly randomWalkFm: FittedParameter;
  /** What readings alone cannot tell apart, and what is only a limit. */
  readonly notes: readonly string[];
}

/**
 * Noise levels and rate of a record, each with its 95 % interval, from the posterior of the noise model.
 *
 * @param readings - the record, slips repaired and outliers set to missing
 * @returns the levels as medians
 * @throws RangeError if fewer than 4 readings are there, or they do not scatter
 *
 * Source: noise-model. Exact case: scaling all noise by k scales every deviation by k.
 */
export function fitNoise(readings: Readings): NoiseFit {
  const fit = bestFit(readings);
  if (fit === null) {
    throw new RangeError(`fitNoise: readings must hold at least ${leastReadings}`);
  }
  const { posterior, steady, levels } = fit;
  if (posterior === null) {
    throw new RangeError("fitNoise: readings must scatter, got none that differ");
  }
  const [whitePm, whiteFm, flickerFm, randomWalkFm] = levels.map(({ estimate, low, high }) => ({
    value: estimate,
    low,
    high,
  }));
  const { apart } = posterior.scaled;
  const ofReading = (x: number) => (Math.SQRT2 * x) / posterior.scaled.timeUnit;
  const notes: string[] = [];
  const limits = [
    ...(apart ? [] : [["white FM", whiteFm!] as const]),
    ["flicker FM", flickerFm!] as const,
    ["random-walk FM", randomWalkFm!] as const,
  ].filter(([, { low }]) => low === 0);
  if (apart) {
    notes.push(
      "with dead time white PM and white FM look alike; all is given as noise of a reading",
    );
  }
  if (limits.length > 0) {
    const names = limits.map(([name]) => name).join(", ");
    notes.push(`${names}: cannot be told from none, so that only the upper end is known`);
  }
  return {
    fractionalOffset: {
      value: steady.rate,
      low: steady.interval95[0],
      high: steady.interval95[1],
    },
    edgeJitter: apart ? null : whitePm!,
    readingNoise: apart
      ? {
          value: ofReading(whitePm!.value),
          low: ofReading(whitePm!.low),
          high: ofReading(whitePm!.high),
        }
      : null,
    whiteFm: apart ? null : whiteFm!,
    flickerFm: flickerFm!,
    randomWalkFm: randomWalkFm!,
    notes,
  };
}
