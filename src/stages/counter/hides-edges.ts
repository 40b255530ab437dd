/**
 * Whether a hold-off may hide edges, so that each one after it has to be looked at: from half a period on, since
 * edges jitter, and a contact may bounce.
 *
 * @param holdoff - edges within this time after an accepted one are ignored; s, >= 0
 * @param period - nominal period of the edges; s, > 0
 * @returns true if an edge of the next period may fall into it
 */
export function hidesEdges(holdoff: number, period: number): boolean {
  return 2 * holdoff > period;
}
