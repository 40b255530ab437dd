import { type NoiseType, noiseTypes } from "../analysis/index.ts";
import { type NoisePosterior, sourceVariance } from "../noise-model/index.ts";

/** Parts of the Allan variance by noise type. */
type Shares = Readonly<Partial<Record<NoiseType, number>>>;

/**
 * Which noise makes most of the Allan variance at an averaging time, by the posterior over the levels.
 *
 * @param posterior - what the record says of its noise
 * @param tau - averaging time; s
 * @returns the type
 *
 * Source: IEEE Std 1139: 3·x²/τ², σ₁²/τ, floor², q·τ/3.
 */
export function noiseAt(posterior: NoisePosterior, tau: number): NoiseType {
  const shares = noiseShares(posterior, tau);
  let best: NoiseType = "white_pm";
  for (const type of noiseTypes) if ((shares[type] ?? 0) > (shares[best] ?? 0)) best = type;
  return best;
}

/** Share of each noise in the Allan variance at an averaging time, averaged over the posterior. */
export function noiseShares(posterior: NoisePosterior, tau: number): Shares {
  const { nodes, weight, scaled } = posterior;
  const t = tau / scaled.timeUnit;
  const edges = scaled.apart && scaled.block > 1 ? scaled.edgeScale * scaled.block : 1;
  const sum = { white_pm: 0, white_fm: 0, flicker_fm: 0, random_walk_fm: 0 };
  nodes.forEach(({ levels }, i) => {
    const pm = (3 * levels.pm) / edges / (t * t);
    const source = sourceVariance(levels, t);
    const part = weight[i]! / (pm + source);
    sum.white_pm += part * pm;
    sum.white_fm += (part * levels.wfm) / t;
    sum.flicker_fm += part * levels.ffm;
    sum.random_walk_fm += (part * levels.rw * t) / 3;
  });
  return sum;
}
