/** Order of events that fall on one moment. */
export const priority = {
  /** The run ends before anything else of that moment. */
  end: 0,
  approach: 1,
  disturbanceEnd: 2,
  disturbanceStart: 3,
  extraStep: 4,
  watchdog: 5,
} as const;

/** Bursts before a disturbance from which on every burst is looked at. */
export const burstsOfApproach = 3;
