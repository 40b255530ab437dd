import {
  type Complex,
  type Decay,
  exponentialLess1,
  multiply,
  type NoiseShape,
} from "../theory/index.ts";
import { integratedLoss } from "./integrated-loss.ts";
import { lagSum } from "./lag-sum.ts";
import { lagWeight, type StampWeighting } from "./lag-weight.ts";
import { lineResponse, lineResponseBound } from "./line-response.ts";
import { smoothSum } from "./smooth-sum.ts";
import { frequencySumOfSquares, randomWalkSum, sumOfSquares, type Weighting } from "./weighting.ts";

/** A decay that turns or falls by more than this in a run is summed in closed form; below that would cost digits. */
const longDecay = 1;

/**
 * The variance that one cause adds to an estimate of the rate: Σ_j Σ_k w_j·w_k·Cov(x_j, x_k).
 *
 * @param weighting - how the estimator weights its stamps
 * @param shape - how the time errors of the stamps hang together
 * @param isBound - for lines: the bound that no longer run exceeds, in place of the value at this length
 * @returns variance of the estimate; dimensionless
 *
 * Sources: Rubiola 2005, Dawkins et al. 2007, Rubiola et al. 2016 (weights); the covariance sum is exact, but
 * for sums of more than five hundred lags of what changes slowly, which hold to a part in 10⁶.
 */
export function estimateVariance(weighting: Weighting, shape: NoiseShape, isBound = false): number {
  switch (shape.type) {
    case "white":
      return shape.variance * sumOfSquares(weighting);
    case "lines": {
      const response = isBound ? lineResponseBound : lineResponse;
      let sum = 0;
      for (const line of shape.lines) sum += line.variance * response(weighting, line.frequency);
      return sum;
    }
    case "correlated":
      return Math.max(
        0,
        weighting.kind === "gates"
          ? correlatedGates(weighting, shape.decays)
          : correlatedStamps(weighting, shape.decays),
      );
    case "white_fm":
      return (shape.h0 / 2) * frequencySumOfSquares(weighting);
    case "relaxing_fm": {
      let sum = 0;
      for (const time of shape.timeConstants) {
        sum +=
          weighting.kind === "gates"
            ? relaxingGates(weighting, time)
            : relaxingStamps(weighting, time);
      }
      return shape.variance * sum;
    }
    case "random_walk_fm":
      return shape.diffusion * randomWalkSum(weighting);
  }
}

function correlatedStamps(weighting: StampWeighting, decays: readonly Decay[]): number {
  const { stamps: n, spacing } = weighting;
  if (n === 2) {
    let loss = 0;
    for (const { coefficient, pole } of decays) {
      const change = exponentialLess1({ re: pole.re * spacing, im: pole.im * spacing });
      loss += multiply(coefficient, change).re;
    }
    return (-2 * loss) / (spacing * spacing);
  }
  let sum = 0;
  for (const { coefficient, pole } of decays) {
    const run = Math.hypot(pole.re, pole.im) * spacing * (n - 1);
    if (run > longDecay) {
      const { re, im } = lagSum(weighting, { re: pole.re * spacing, im: pole.im * spacing });
      sum += coefficient.re * re - coefficient.im * im;
    } else sum += slowDecay(weighting, { coefficient, pole });
  }
  return sum;
}

/** A decay as long as the run: all weights add up to zero, so R(τ) − R(0) serves, and keeps the digits. */
function slowDecay(weighting: StampWeighting, { coefficient, pole }: Decay): number {
  const { stamps: n, spacing } = weighting;
  const product = (m: number) => {
    const lag = m * spacing;
    const change = exponentialLess1({ re: pole.re * lag, im: pole.im * lag });
    return lagWeight(weighting, m) * multiply(coefficient, change).re;
  };
  return 2 * smoothSum(product, n - 1);
}

function correlatedGates(
  weighting: Extract<Weighting, { kind: "gates" }>,
  decays: readonly Decay[],
): number {
  const { readings: k, gate, spacing } = weighting;
  let sum = 0;
  for (const { coefficient, pole } of decays) {
    const loss = exponentialLess1({ re: pole.re * gate, im: pole.im * gate });
    sum += -2 * k * multiply(coefficient, loss).re;
    if (k > 1) {
      // Cov of two readings m apart: −c·e^{p(mP − G)}·(1 − e^{pG})².
      const first = exponential(pole, spacing - gate);
      const between = multiply(
        multiply(first, multiply(loss, loss)),
        triangularSum(pole, spacing, k),
      );
      sum += -2 * multiply(coefficient, between).re;
    }
  }
  return sum / (k * gate) ** 2;
}

const exponential = (pole: Complex, time: number): Complex => {
  const size = Math.exp(pole.re * time);
  return { re: size * Math.cos(pole.im * time), im: size * Math.sin(pole.im * time) };
};

/** Σ_{m=1}^{K−1} (K − m)·ρ^{m−1} with ρ = e^{pP}. */
function triangularSum(pole: Complex, spacing: number, k: number): Complex {
  const size = Math.hypot(pole.re, pole.im) * spacing;
  if (k * size < 1e-6) return { re: (k * (k - 1)) / 2, im: 0 };
  // (K·(1 − ρ) − (1 − ρ^K))/(1 − ρ)².
  const step = exponentialLess1({ re: pole.re * spacing, im: pole.im * spacing });
  const whole = exponentialLess1({ re: pole.re * spacing * k, im: pole.im * spacing * k });
  const top = { re: whole.re - k * step.re, im: whole.im - k * step.im };
  const square = multiply(step, step);
  const norm = square.re * square.re + square.im * square.im;
  return {
    re: (top.re * square.re + top.im * square.im) / norm,
    im: (top.im * square.re - top.re * square.im) / norm,
  };
}

/** Variance for the integral of a relaxation process of unit variance, stamped. */
function relaxingStamps(weighting: StampWeighting, time: number): number {
  const { stamps: n, spacing } = weighting;
  // −½ Σ_j Σ_k w_j·w_k·D(t_j − t_k), D(τ) = 2T²(u − 1 + e^{−u}), u = τ/T.
  const product = (m: number) => lagWeight(weighting, m) * integratedLoss((m * spacing) / time);
  return -2 * time * time * smoothSum(product, n - 1);
}

/** Variance of the mean over gates of a relaxation process of unit variance. */
function relaxingGates(weighting: Extract<Weighting, { kind: "gates" }>, time: number): number {
  const { readings: k, gate, spacing } = weighting;
  const own = 2 * (time / gate) ** 2 * integratedLoss(gate / time);
  if (k === 1) return own;
  const loss = (time / gate) * Math.expm1(-gate / time);
  const pole = { re: -1 / time, im: 0 };
  const between =
    loss * loss * Math.exp((gate - spacing) / time) * triangularSum(pole, spacing, k).re;
  return (k * own + 2 * between) / (k * k);
}
