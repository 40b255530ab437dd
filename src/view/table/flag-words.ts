/** Words of the `flag` column, by bit: what happened inside the gate. */
const words = [
  "slip",
  "fallback",
  "drive_rate",
  "amplitude",
  "missed_edge",
  "extra_edge",
  "no_edge",
] as const;

/** Text of the `flag` column for every combination of marks, by their bits: words joined by a space. */
export const flagLabels: readonly string[] = Array.from({ length: 1 << words.length }, (_, marks) =>
  words.filter((_, bit) => (marks >> bit) & 1).join(" "),
);
