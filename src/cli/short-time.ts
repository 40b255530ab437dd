const prefixes = [
  [1, "s"],
  [1e-3, "ms"],
  [1e-6, "µs"],
  [1e-9, "ns"],
  [1e-12, "ps"],
  [1e-15, "fs"],
] as const;

/** A short time in the unit that suits it, in three digits: `1.02 ms`. */
export function shortTime(seconds: number): string {
  if (seconds === 0) return "0 s";
  // No unit suits what is far below a femtosecond.
  if (Math.abs(seconds) < 1e-18) return `${Number(seconds.toPrecision(3))} s`;
  const [unit, name] = prefixes.find(([size]) => Math.abs(seconds) >= size) ?? prefixes[5];
  return `${Number((seconds / unit).toPrecision(3))} ${name}`;
}
