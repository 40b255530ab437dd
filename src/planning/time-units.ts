/**
 * Seconds in each unit of time that durations and accuracies may be written in.
 *
 * A year is the Julian year of 365.25 days (IAU recommendation), a month its twelfth part: 30.4375 days.
 */
export const timeUnits: ReadonlyMap<string, number> = new Map(
  (
    [
      [1e-12, "ps"],
      [1e-9, "ns"],
      [1e-6, "us µs μs"],
      [1e-3, "ms"],
      [1, "s sec second seconds"],
      [60, "min minute minutes"],
      [3600, "h hour hours"],
      [86400, "d day days"],
      [604800, "w week weeks"],
      [2629800, "month months"],
      [31557600, "y yr year years a"],
    ] as const
  ).flatMap(([seconds, names]) => names.split(" ").map((name) => [name, seconds] as const)),
);
