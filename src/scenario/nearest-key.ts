/**
 * Optimal string alignment distance: insertions, deletions, substitutions and swaps of neighbours.
 *
 * @param a - a text
 * @param b - another
 * @returns the least number of such edits that turns a into b
 */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, before[j - 2]! + 1);
      }
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

/**
 * The known key that a mistyped one was most likely meant to be.
 *
 * @param key - the key as written
 * @param known - the keys there are
 * @returns the nearest key within a third of its length in edits (two at least), or null
 */
export function nearestKey(key: string, known: readonly string[]): string | null {
  // A key far longer than any known one is no slip of the finger, and costs time.
  if (key.length > 64) return null;
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const distance = editDistance(key.toLowerCase(), candidate.toLowerCase());
    const near = Math.min(
      Math.max(2, Math.floor(candidate.length / 3)),
      // Of a key of one or two signs something must be left, or any short key would be near.
      Math.min(key.length, candidate.length) - 1,
    );
    if (distance < least && distance <= near) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}
