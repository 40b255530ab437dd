/** What the program's exit status means. */
export const exitCode = {
  done: 0,
  /** Done, but a comparison asked for failed. */
  differs: 1,
  /** Usage, scenario or data invalid. */
  invalid: 2,
  /** A file could not be read or written. */
  file: 3,
  /** A defect of the program. */
  defect: 70,
  /** Interrupted; what was complete is kept. */
  interrupted: 130,
} as const;
