import { exp, normalCdf } from "../../numeric/index.ts";
import type { BurstPath, BurstPaths } from "./burst-path.ts";
import type { BurstStart } from "./passage-density.ts";

/** Standard deviations beyond which nothing crosses. */
const far = 9;

/** A spread that stands for none, as a part of the threshold. */
const sharp = 1e-9;

/** What one burst is measured by. */
export interface BurstLevel {
  readonly threshold: number;
  /** Amplitude, and its relative rms. */
  readonly amplitude: number;
  readonly relative: number;
  /** rms of the noise once it has settled; V. */
  readonly noise: number;
}

/**
 * Distance of u from the threshold at a point of a path, in standard deviations of all that spreads it.
 *
 *   z = (θ − A·M − m·k)/√(A²·relative²·M² + noise²·(1 − k²) + var·k²),  k = e^(−t/τ)
 */
export function distanceAt(
  { decay }: BurstPaths,
  path: BurstPath,
  { threshold, amplitude, relative, noise }: BurstLevel,
  start: BurstStart,
  i: number,
): number {
  const kept = decay[i]!;
  const charge = amplitude * path.charge[i]!;
  const fading = relative * charge;
  const variance =
    fading * fading + noise * noise * (1 - kept * kept) + start.variance * kept * kept;
  const least = sharp * threshold;
  return (threshold - charge - start.mean * kept) / Math.sqrt(variance + least * least);
}

/**
 * Law of the first crossing where the noise hardly moves during the approach: noise, amplitude and what the burst began
 * with are one Gaussian deviate, and the burst has crossed by t if the path has come near enough:
 *
 *   F(t) = Φ(−min z(s), s ≤ t)
 *
 * No step at all has the probability Φ(min z) then; whatever the noise does it is at most that, since u must have been
 * below the threshold where it is nearest.
 *
 * @param paths - paths on a grid
 * @param path - one of them
 * @param level - threshold, amplitude, noise
 * @param start - u when the burst begins
 * @param out - receives the probability that goes with points 0, 1, 2, …; null where only the result is wanted
 * @returns the least z of the burst
 *
 * Source: own derivation; exact without noise, where it is the closed form of the charge.
 */
export function fillFrozen(
  paths: BurstPaths,
  path: BurstPath,
  level: BurstLevel,
  start: BurstStart,
  out: Float64Array | null,
): number {
  out?.fill(0);
  let nearest = distanceAt(paths, path, level, start, 0);
  let crossed = normalCdf(-nearest);
  for (let i = 1; i <= paths.steps; i++) {
    const z = distanceAt(paths, path, level, start, i);
    if (z >= nearest) continue;
    if (out !== null && z < far && nearest > -far) {
      const next = normalCdf(-z);
      const share = next - crossed;
      // z is straight between points: the mean of F over the step tells where in it the crossings lie.
      const average = (excess(z) - excess(nearest)) / (nearest - z);
      const place = share > 0 ? Math.min(1, Math.max(0, (next - average) / share)) : 0;
      out[i - 1] = out[i - 1]! + share * (1 - place);
      out[i] = out[i]! + share * place;
      crossed = next;
    }
    nearest = z;
  }
  return nearest;
}

/** ∫ Φ(−z) dz from z on. */
function excess(z: number): number {
  return exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI) - z * normalCdf(-z);
}
