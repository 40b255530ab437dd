/** A trial that takes so long tells what a run costs; s. */
const trialTime = 0.1;

/**
 * What a run costs, by shorter ones: longer and longer trials, until one takes long enough to be compared with.
 *
 * Each counts by the quicker of two. Whatever else goes on in the meantime (code being compiled, memory cleared) only
 * makes a trial longer, and beside a trial of a millisecond it would be taken for a thousandfold cost.
 *
 * @param readings - of the run; >= 1
 * @param timed - makes a run of so many readings and says how long it took; s
 * @returns s
 */
export function costByTrials(readings: number, timed: (readings: number) => number): number {
  // The first run also pays for what is made once only.
  timed(Math.min(readings, 16));
  for (let trial = Math.min(readings, 32); ; trial = Math.min(readings, 4 * trial)) {
    const spent = Math.min(timed(trial), timed(trial));
    if (spent > trialTime || trial === readings) return (spent / trial) * readings;
  }
}
