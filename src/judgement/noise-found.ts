import type { NoiseType } from "../analysis/index.ts";
import type { BestFit } from "./best-fit.ts";
import { noiseShares } from "./noise-by-tau.ts";

/** The noise found, in a few numbers. */
export interface NoiseFound {
  /** Share of each noise in the Allan variance at the gate. */
  readonly probability: Readonly<Partial<Record<NoiseType, number>>>;
  /** rms time error of an edge; s; NaN where it is not known. */
  readonly edgeJitter: number;
  /** Standard deviation of a single reading's rate; dimensionless. */
  readonly readingDeviation: number;
  /** Allan deviation of the source over the run; dimensionless. */
  readonly sourceDeviation: number;
  /** Length of the run; s. */
  readonly interval: number;
}

/** The noise of a record in a few numbers; NaN where the readings are too few to tell. */
export function noiseFound(
  fit: BestFit | null,
  gate: number,
  readingDeviation: number,
): NoiseFound {
  if (fit === null || fit.posterior === null) {
    return {
      probability: {},
      edgeJitter: Number.NaN,
      readingDeviation,
      sourceDeviation: Number.NaN,
      interval: fit?.duration ?? Number.NaN,
    };
  }
  const { duration, levels, posterior } = fit;
  const [whitePm, whiteFm, flickerFm, walk] = levels.map(({ estimate }) => estimate);
  const source = whiteFm! ** 2 / duration + flickerFm! ** 2 + walk! ** 2 * duration;
  return {
    probability: noiseShares(posterior, gate),
    edgeJitter: whitePm!,
    readingDeviation,
    sourceDeviation: Math.sqrt(source),
    interval: duration,
  };
}
