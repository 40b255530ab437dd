import { averagedDifferenceSquares } from "./averaged-difference-squares.ts";
import { allFactors, octaveFactors } from "./averaging-factors.ts";
import { degreesOfFreedom } from "./degrees-of-freedom.ts";
import { deviationInterval } from "./deviation-interval.ts";
import { secondDifferenceSquares, thirdDifferenceSquares } from "./difference-squares.ts";
import type { SquareSum } from "./gap-rule.ts";
import { mtieAt } from "./mtie.ts";
import type { NoiseType } from "./noise-type.ts";
import { removeDeadTimeBias } from "./remove-dead-time-bias.ts";
import { requireSpacing } from "./require-arguments.ts";
import type { StabilityRow, StabilityTableOptions } from "./stability-row.ts";
import { timeErrorFromRates } from "./time-error-from-rates.ts";

/**
 * Stability of a time-error record over averaging time.
 *
 * Terms that touch a gap are left out, the degrees of freedom shrink in proportion; MTIE over windows with gaps is
 * a lower bound.
 *
 * @param x - time error at evenly spaced instants; N >= 3 samples, s; NaN = gap
 * @param tau0 - spacing of the samples; s, > 0
 * @param options - averaging factors
 * @returns a row for each averaging factor with 2m < N and at least one term, ascending
 * @throws RangeError if tau0 is not > 0 or x holds fewer than 3 samples
 *
 * Source: IEEE Std 1139; ITU-T Rec. G.810; NIST SP 1065, section 5.
 * Exact for linear frequency drift D: Allan deviation D·τ/√2, Hadamard deviation 0.
 */
export function stabilityTableFromTimeError(
  x: Float64Array,
  tau0: number,
  options: StabilityTableOptions = {},
): StabilityRow[] {
  requireSpacing("stabilityTableFromTimeError", tau0);
  if (x.length < 3) {
    throw new RangeError(
      `stabilityTableFromTimeError: x must hold at least 3 samples, got ${x.length}`,
    );
  }
  const typeAt = (m: number) => options.typeAt?.(m * tau0) ?? null;
  return tableOf([x], x.length, tau0, options, typeAt);
}

/**
 * Stability of rate readings over averaging time, back to back or with dead time.
 *
 * Back to back, readings are summed up to time errors; a missing reading (NaN) breaks the record, and no term
 * reaches across. With dead time only the Allan deviation has a meaning; its bias is removed where the noise type
 * allows, else it is given as measured and the row says why; degrees of freedom are those of readings back to back
 * (under white and flicker PM they look white, and count as under white FM).
 *
 * @param y - slope of the time error over each reading; K >= 2 readings, dimensionless; NaN = missing
 * @param gate - length of a reading τ₀; s, > 0
 * @param spacing - from the start of a reading to the start of the next; s, >= gate (equal = back to back)
 * @param options - averaging factors, and the noise at each
 * @returns a row for each averaging factor with 2m <= K and at least one term, ascending
 * @throws RangeError if gate or spacing is outside its range or y holds fewer than 2 readings
 *
 * Source: as above; NBS TN 375 and NIST TN 1318 for dead time.
 * Exact for readings back to back whose rate drifts by D: Allan deviation D·τ/√2.
 */
export function stabilityTableFromRates(
  y: Float64Array,
  gate: number,
  spacing: number,
  options: StabilityTableOptions = {},
): StabilityRow[] {
  if (!(gate > 0 && gate < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`stabilityTableFromRates: gate must be > 0 s and finite, got ${gate}`);
  }
  if (!(spacing >= gate && spacing < Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `stabilityTableFromRates: spacing must be >= gate = ${gate} s and finite, got ${spacing}`,
    );
  }
  if (y.length < 2) {
    throw new RangeError(
      `stabilityTableFromRates: y must hold at least 2 readings, got ${y.length}`,
    );
  }
  const ratio = spacing / gate;
  const typeAt = (m: number) => options.typeAt?.(m * gate) ?? null;
  const rows = tableOf(unbroken(y, gate), y.length + 1, gate, options, typeAt, ratio > 1);
  if (ratio === 1) return rows;
  // With dead time white PM and white FM look alike.
  const type = typeAt(1);
  const found: readonly NoiseType[] =
    type === null ? [] : type === "white_pm" ? ["white_pm", "white_fm"] : [type];
  const types = options.noiseTypes ?? found;
  return rows.map((row) => withoutDeadTimeBias(row, types, ratio, Math.round(row.tauS / gate)));
}

/** Time errors of each unbroken stretch of readings. */
function unbroken(y: Float64Array, gate: number): Float64Array[] {
  const pieces: Float64Array[] = [];
  let start = 0;
  for (let i = 0; i <= y.length; i++) {
    if (i < y.length && !Number.isNaN(y[i]!)) continue;
    if (i > start) pieces.push(timeErrorFromRates(y.subarray(start, i), gate));
    start = i + 1;
  }
  return pieces;
}

function tableOf(
  pieces: readonly Float64Array[],
  length: number,
  tau0: number,
  options: StabilityTableOptions,
  typeAt: (m: number) => NoiseType | null,
  allanOnly = false,
): StabilityRow[] {
  const limit = Math.floor((length - 1) / 2);
  const factors = options.factors === "all" ? allFactors(limit) : octaveFactors(limit);
  const mtie = allanOnly ? factors.map(() => null) : greatestMtie(pieces, factors);
  const rows: StabilityRow[] = [];
  factors.forEach((m, k) => {
    const tau = m * tau0;
    const allan = pooled(pieces, 2 * m + 1, (x) => secondDifferenceSquares(x, m, 1));
    if (allan.terms === 0) return;
    const allanDeviation = Math.sqrt(allan.sum / (2 * allan.terms)) / tau;
    const noiseType = typeAt(m);
    const dof = noiseType && shareOfDegrees(noiseType, length, m, allan.terms);
    const interval = dof === null ? null : deviationInterval(allanDeviation, dof);
    const modified = allanOnly
      ? null
      : rootMean(
          pooled(pieces, 3 * m, (x) => averagedDifferenceSquares(x, m)),
          2,
          m * tau,
        );
    rows.push({
      tauS: tau,
      samples: allan.terms,
      degreesOfFreedom: dof,
      noiseType,
      allanDeviation,
      allanLow: interval?.low ?? null,
      allanHigh: interval?.high ?? null,
      modifiedAllanDeviation: modified,
      timeDeviation: modified === null ? null : (tau * modified) / Math.sqrt(3),
      hadamardDeviation: allanOnly
        ? null
        : rootMean(
            pooled(pieces, 3 * m + 1, (x) => thirdDifferenceSquares(x, m, 1)),
            6,
            tau,
          ),
      mtie: mtie[k]!,
      deadTimeBias: null,
    });
  });
  return rows;
}

/** Adds up the squares of all pieces that are long enough. */
function pooled(
  pieces: readonly Float64Array[],
  shortest: number,
  squares: (x: Float64Array) => SquareSum,
): SquareSum {
  let sum = 0;
  let terms = 0;
  let skipped = 0;
  for (const piece of pieces) {
    if (piece.length < shortest) continue;
    const part = squares(piece);
    sum += part.sum;
    terms += part.terms;
    skipped += part.skipped;
  }
  return { sum, terms, skipped };
}

function rootMean(squares: SquareSum, divisor: number, scale: number): number | null {
  return squares.terms === 0 ? null : Math.sqrt(squares.sum / (divisor * squares.terms)) / scale;
}

/** Degrees of freedom of a record without gaps, cut in proportion to the terms that are left. */
function shareOfDegrees(type: NoiseType, length: number, m: number, terms: number): number {
  const whole = degreesOfFreedom("overlapping_allan", type, length, m);
  return Math.max(1, (whole * terms) / (length - 2 * m));
}

function greatestMtie(
  pieces: readonly Float64Array[],
  factors: readonly number[],
): (number | null)[] {
  const greatest = factors.map(() => Number.NEGATIVE_INFINITY);
  for (const piece of pieces) {
    const fitting = factors.filter((n) => n < piece.length);
    mtieAt(piece, fitting, "skip").forEach((value, k) => {
      if (value > greatest[k]!) greatest[k] = value;
    });
  }
  return greatest.map((value) => (value === Number.NEGATIVE_INFINITY ? null : value));
}

function withoutDeadTimeBias(
  row: StabilityRow,
  types: readonly NoiseType[],
  ratio: number,
  m: number,
): StabilityRow {
  const corrected = removeDeadTimeBias(row.allanDeviation, types, ratio, m);
  if ("refused" in corrected) return { ...row, deadTimeBias: `left in: ${corrected.refused}` };
  const factor = row.allanDeviation === 0 ? 1 : corrected.value / row.allanDeviation;
  return {
    ...row,
    allanDeviation: corrected.value,
    allanLow: row.allanLow && row.allanLow * factor,
    allanHigh: row.allanHigh && row.allanHigh * factor,
    deadTimeBias: "removed",
  };
}
