/**
 * Moves blocks along a line as little as possible until none overlaps.
 *
 * Blocks keep the order of their wanted centres; a crowd is centred on the mean of what it wants (least
 * squares, by pooling neighbours).
 *
 * @param wanted - wanted centre of each block; px
 * @param sizes - size of each block; px, >= 0
 * @param low - no block begins before this; px
 * @param high - none ends after this; px. Where all together are too large they run over it
 * @returns centre of each block; px
 *
 * Source: isotonic regression by pooling adjacent violators (Ayer et al. 1955). Exact case: blocks that do
 * not overlap stay.
 */
export function spread(
  wanted: readonly number[],
  sizes: readonly number[],
  low: number,
  high: number,
): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  // A pool is a run of blocks that touch: where it starts, how long it is, and what its blocks wish.
  const pools: { members: number[]; size: number; wishes: number; start: number }[] = [];
  for (const i of order) {
    const wish = wanted[i]! - sizes[i]! / 2;
    let pool = { members: [i], size: sizes[i]!, wishes: wish, start: wish };
    for (
      let last = pools.at(-1);
      last && last.start + last.size > pool.start;
      last = pools.at(-1)
    ) {
      pools.pop();
      const members = [...last.members, ...pool.members];
      const wishes = last.wishes + pool.wishes - pool.members.length * last.size;
      pool = { members, size: last.size + pool.size, wishes, start: wishes / members.length };
    }
    pool.start = Math.max(low, Math.min(high - pool.size, pool.start));
    pools.push(pool);
  }
  const centres = wanted.slice();
  let end = low;
  for (const pool of settle(pools, high)) {
    let at = Math.max(end, pool.start);
    for (const i of pool.members) {
      centres[i] = at + sizes[i]! / 2;
      at += sizes[i]!;
    }
    end = at;
  }
  return centres;
}

/** Pushes pools up from the high end where the clamp made them overlap. */
function settle<P extends { start: number; readonly size: number }>(pools: P[], high: number): P[] {
  let limit = high;
  for (let k = pools.length - 1; k >= 0; k--) {
    const pool = pools[k]!;
    pool.start = Math.min(pool.start, limit - pool.size);
    limit = pool.start;
  }
  return pools;
}
