import type { Instant, RandomStream } from "../../numeric/index.ts";

/**
 * Adds the trigger noise of one edge to its counter time.
 *
 * @param at - counter time, changed in place
 * @param triggerNoise - rms; s, >= 0
 */
export function trigger(at: Instant, triggerNoise: number, stream: RandomStream): void {
  if (triggerNoise > 0) at.add(triggerNoise * stream.normal());
}

/**
 * Cuts a counter time down to a multiple of the resolution, as a register that counts time-base cycles does.
 *
 * Below a second the grid of multiples begins anew with every whole second, so that the remainder stays exact at any run
 * length; for a resolution that divides the second this is the plain grid, and the stamp the double next to
 * that decimal: 1994479 counts of 1e-7 s are 0.1994479 s.
 *
 * @param at - counter time, changed in place
 * @param resolution - s, >= 0; 0 leaves it as it is
 */
export function quantize(at: Instant, resolution: number): void {
  if (resolution <= 0) return;
  if (resolution > 1) {
    at.set(Math.floor(at.toSeconds() / resolution) * resolution, 0);
    return;
  }
  const counts = Math.floor(at.fraction / resolution);
  const perSecond = Math.round(1 / resolution);
  const divides = perSecond * resolution === 1;
  const multiple = (count: number) => (divides ? count / perSecond : count * resolution);
  // The quotient of a stamp that is itself a multiple may be rounded to just below its count.
  const next = multiple(counts + 1);
  at.set(at.whole, next <= at.fraction ? next : multiple(counts));
}
