import type { EnvelopeKnot } from "./drive-parameters.ts";

/**
 * The envelope of a burst: the amplitude rises evenly from the edge, and falls likewise after the burst.
 *
 * @param burst - from the edge to where the fall begins; s, > 0
 * @param rise - how long rise and fall last; s, 0 ≤ rise ≤ burst
 * @returns its knots: edge, end of the rise, start of the fall, silence; a jump where the rise takes no time
 */
export function burstEnvelope(burst: number, rise: number): EnvelopeKnot[] {
  return [
    { at: 0, level: 0 },
    { at: rise, level: 1 },
    { at: burst, level: 1 },
    { at: burst + rise, level: 0 },
  ];
}
