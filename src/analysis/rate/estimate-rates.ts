import type { Readings } from "../../readings/index.ts";
import { requireReadings } from "../../readings/index.ts";
import { digitWarnings } from "./digit-warnings.ts";
import { honestInterval } from "./honest-interval.ts";
import { nextRunDeviation } from "./next-run-deviation.ts";
import { type RateCandidate, type RateCandidates, rateCandidates } from "./rate-candidates.ts";
import type { RateEstimate } from "./rate-estimate.ts";
import { rateOfSlope } from "./rate-of-slope.ts";

/** What is known beside the readings. */
export interface RateOptions {
  /** Half-width of a bound on what shifts every reading alike (the time base); dimensionless, >= 0. */
  readonly systematicBound?: number;
}

/** Readings below which no noise can be told from so few. */
const leastReadings = 5;
/** Share of the variance from which on it is said that rounding is part of it. */
const shownShare = 0.1;

/**
 * Rate by three estimators, each with the uncertainty that follows from the noise found in the readings.
 *
 * @param readings - the record; at least one reading not missing
 * @param options - what is known beside it
 * @param found - slopes and noise of the same record, where they are known already
 * @returns estimates in the order mean of readings, end to end, line fit
 * @throws RangeError if the record is none (columns of unlike length, a value outside its range), every reading is
 *   missing, or the bound is not >= 0
 *
 * Source: own derivation; see the single estimators. Exact case: a constant period P gives T/P − 1 by all
 * three, and no uncertainty, since a record without scatter knows none.
 */
export function estimateRates(
  readings: Readings,
  options: RateOptions = {},
  found: RateCandidates | null = null,
): RateEstimate[] {
  requireReadings("estimateRates", readings);
  const { systematicBound = 0 } = options;
  if (!(systematicBound >= 0)) {
    throw new RangeError(`estimateRates: systematicBound must be >= 0, got ${systematicBound}`);
  }
  const { candidates, singleDeviation, count, intervals } = found ?? rateCandidates(readings);
  const naive = singleDeviation / Math.sqrt(count);
  const coarse =
    digitWarnings(readings).find((w) => w.code === "coarse")?.message ??
    tooRounded(readings, singleDeviation);
  return candidates.map((c) =>
    judgeCandidate(c, { naive, count, intervals, coarse }, systematicBound),
  );
}

/** Where readings are rounded in steps larger than their scatter, what is cut off is no longer random. */
function tooRounded(readings: Readings, deviation: number): string {
  const step = readings.kind === "period" ? Math.sqrt(12) * (readings.rounding ?? 0) : 0;
  return step > deviation && deviation > 0
    ? "the readings are rounded in steps larger than their scatter, and what is cut off adds up"
    : "";
}

function judgeCandidate(
  candidate: RateCandidate,
  record: Pick<RateCandidates, "count" | "intervals"> & { naive: number; coarse: string },
  systematicBound: number,
): RateEstimate {
  const { naive, count, intervals, coarse } = record;
  const { method, slope, response, noise } = candidate;
  const rate = rateOfSlope(slope);
  const common = {
    method,
    rate,
    secondsPerDay: rate * 86400,
    naiveStandardUncertainty: naive,
    systematicBound,
  };
  const { hypotheses } = noise;
  const refused =
    candidate.against !== "" && response === null
      ? candidate.against
      : count < leastReadings
        ? `${count === 1 ? "one reading is" : `${count} readings are`} too few to know ${count === 1 ? "its" : "their"} own noise; at least ${leastReadings} are needed`
        : hypotheses.length === 0
          ? "the readings do not scatter at all, which says nothing about how sure they are"
          : coarse;
  if (refused !== "" || response === null) {
    return {
      ...common,
      standardUncertainty: Number.NaN,
      interval95: [Number.NaN, Number.NaN],
      steadyStandardUncertainty: null,
      steadyInterval95: null,
      nextRunStandardDeviation: Number.NaN,
      applies: false,
      why: refused,
      steadyWhy: "",
    };
  }
  const found = honestInterval(hypotheses, response, noise.intervals);
  const rounding = (hypotheses[0]!.rounding ?? 0) * response.whiteFm;
  const roundingShows = rounding > shownShare * found.standardUncertainty ** 2;
  const around = (half: number): [number, number] => [
    rateOfSlope(slope - half),
    rateOfSlope(slope + half),
  ];
  return {
    ...common,
    standardUncertainty: found.standardUncertainty,
    interval95: around(found.halfWidth),
    steadyStandardUncertainty: found.steady?.standardUncertainty ?? null,
    steadyInterval95: found.steady === null ? null : around(found.steady.halfWidth),
    nextRunStandardDeviation: nextRunDeviation(hypotheses, intervals, noise.independent),
    applies: candidate.against === "",
    why:
      candidate.against ||
      [
        candidate.why,
        roundingShows ? "what rounding cuts off each reading adds up" : "",
        found.proviso,
      ]
        .filter((part) => part !== "")
        .join("; "),
    steadyWhy: found.steadyWhy,
  };
}
