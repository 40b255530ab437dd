import type { Agreement, Finding, Headline, HeldLevel, HeldRate } from "../../judgement/index.ts";

/** A rate, as other programs read it. */
export const heldToJson = ({ rate, interval95 }: HeldRate) => ({
  rate,
  seconds_per_day: rate * 86400,
  interval_95: interval95,
});

/** The best fit over this run and steady, as other programs read it; null where there is none. */
export function headlineToJson(headline: Headline | null) {
  return (
    headline && {
      over_run: heldToJson(headline.overRun),
      steady: heldToJson(headline.steady),
      systematic_bound: headline.systematicBound,
      systematic_causes: headline.systematicCauses,
    }
  );
}

const kinds = {
  whitePm: "white_pm_rms_s",
  whiteFm: "white_fm_adev_1s",
  flickerFm: "flicker_fm_adev",
  randomWalkFm: "random_walk_fm_adev_1s",
} as const;

/** Noise levels, named as in a scenario. */
export const levelsToJson = (levels: readonly HeldLevel[]) =>
  levels.map(({ kind, estimate, low, high }) => ({ kind: kinds[kind], estimate, low, high }));

/** Whether a record is as its scenario lets it be. */
export const agreementToJson = (agreement: Agreement | null) =>
  agreement && {
    noise: agreement.noise,
    rate: agreement.rate,
    compared: agreement.compared.map(({ quantity, found, interval95, expected, probability }) => ({
      quantity: quantity === "rate" ? "rate" : kinds[quantity],
      found,
      interval_95: interval95,
      expected,
      probability,
    })),
  };

/** What the model found in a record, as notes. */
export const findingsToJson = (findings: readonly Finding[], line: ArrayLike<number> = []) =>
  findings.map(({ code, reading, message }) => ({
    code,
    line: (reading === null ? null : line[reading]) || null,
    reading,
    message,
  }));
