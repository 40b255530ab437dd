import { devianceTerm } from "./deviance-term.ts";
import { exp } from "./portable-exp.ts";
import { log } from "./portable-log.ts";
import type { RandomStream } from "./random-stream.ts";
import { stirlingError } from "./stirling-error.ts";

const twoPi = 2 * Math.PI;

/**
 * A Poisson deviate, exact for small and large means.
 *
 *   P(X = k) = μᵏ·e^(−μ)/k!
 *
 * @param stream - source of randomness; advanced by none for mean 0, else one or more deviates
 * @param mean - μ; 0 ≤ μ ≤ 1e15
 * @returns integer ≥ 0 of mean and variance μ
 * @throws RangeError if mean is out of range
 *
 * Source: below 10 inversion by adding up probabilities; above, transformed rejection (PTRS),
 * W. Hörmann, "The transformed rejection method for generating Poisson random variables", Insurance:
 * Mathematics and Economics 12, 1993. Exact case: 0 always for μ = 0.
 */
export function poisson(stream: RandomStream, mean: number): number {
  if (!(mean >= 0 && mean <= 1e15)) {
    throw new RangeError(`poisson: mean must be >= 0 and <= 1e15, got ${mean}`);
  }
  if (mean === 0) {
    return 0;
  }
  return mean < 10 ? poissonByInversion(stream, mean) : poissonByRejection(stream, mean);
}

function poissonByInversion(stream: RandomStream, mean: number): number {
  let left = stream.uniform();
  let probability = exp(-mean);
  let k = 0;
  // Beyond a hundred the probabilities are below the resolution of the deviate.
  while (left > probability && k < 100) {
    left -= probability;
    k += 1;
    probability *= mean / k;
  }
  return k;
}

function poissonByRejection(stream: RandomStream, mean: number): number {
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
  const squeeze = 0.9277 - 3.6224 / (b - 2);
  for (;;) {
    const u = stream.uniform() - 0.5;
    const v = stream.uniform();
    const us = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / us + b) * u + mean + 0.43);
    if (us >= 0.07 && v <= squeeze) {
      return k;
    }
    if (k < 0 || (us < 0.013 && v > us)) {
      continue;
    }
    if (log((v * inverseAlpha) / (a / (us * us) + b)) <= logProbability(k, mean)) {
      return k;
    }
  }
}

/** ln P(X = k) in Loader's form, which keeps its accuracy at any mean. */
function logProbability(k: number, mean: number): number {
  if (k === 0) {
    return -mean;
  }
  return -stirlingError(k) - devianceTerm(k, mean) - 0.5 * log(twoPi * k);
}
