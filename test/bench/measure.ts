/** What one measurement came to. */
export interface Measured {
  /** Median over the runs of CPU time per item; ns. */
  readonly ns: number;
  /** Smallest and largest of the runs; ns. */
  readonly least: number;
  readonly most: number;
  /** Each run; ns. */
  readonly runs: readonly number[];
}

/** CPU time of this process so far, user and system; ns. */
export function cpuTime(): number {
  const { user, system } = process.cpuUsage();
  return 1e3 * (user + system);
}

/** Median of some numbers; NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? (sorted[middle] ?? Number.NaN)
    : 0.5 * ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN));
}

/**
 * Measures pieces of work side by side: each round does all of them once, so that a machine that gets
 * slower in the course of minutes slows all of them alike. CPU time, not wall time; one round to warm up.
 *
 * @param work - name and work; each returns the number of items it has dealt with
 * @param rounds - rounds counted
 * @param beside - what else belongs to each round counted
 */
export function measure<Name extends string>(
  work: Readonly<Record<Name, () => number>>,
  rounds: number,
  beside: () => void = () => {},
): Record<Name, Measured> {
  const names = Object.keys(work) as Name[];
  const times = new Map<Name, number[]>(names.map((name) => [name, []]));
  for (let round = 0; round <= rounds; round++) {
    if (round > 0) beside();
    for (const name of names) {
      const begin = cpuTime();
      const items = work[name]();
      if (round > 0) times.get(name)!.push((cpuTime() - begin) / items);
    }
  }
  const result = {} as Record<Name, Measured>;
  for (const name of names) {
    const values = times.get(name)!;
    result[name] = {
      ns: median(values),
      least: Math.min(...values),
      most: Math.max(...values),
      runs: values,
    };
  }
  return result;
}
