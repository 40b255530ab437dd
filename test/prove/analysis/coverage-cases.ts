import {
  backToBack,
  type DeadTimeNoise,
  fromDemo,
  type RecordMaker,
  withDeadTime,
} from "../../judgement/coverage-harness.ts";
import type { MadeNoise } from "../../judgement/power-law-noise.ts";

const made: Record<string, MadeNoise> = {
  "white PM": { measurement: 1 },
  "white FM": { whiteFm: 1 },
  "white FM, white PM x0.1": { whiteFm: 1, measurement: 0.1 },
  "flicker FM, white PM": { flickerFm: 1, measurement: 1 },
  "flicker FM, white PM x30": { flickerFm: 1, measurement: 30 },
  "flicker FM, white PM x1e6": { flickerFm: 1, measurement: 1e6 },
  "random-walk FM, white PM": { randomWalkFm: 1, measurement: 1 },
  "random-walk FM, white PM x100": { randomWalkFm: 1, measurement: 100 },
  "random-walk FM, white PM x1e7": { randomWalkFm: 1, measurement: 1e7 },
  "flicker PM": { flickerPm: 1 },
  "flicker PM, white PM x3": { flickerPm: 1, measurement: 3 },
  "white PM, slow beat": { measurement: 1, beat: [0.7, 0.113] },
};

const apart: Record<string, DeadTimeNoise> = {
  "dead time: white": { reading: 1 },
  "dead time: flicker FM": { reading: 1, flickerFm: 1 },
  "dead time: flicker FM x0.01": { reading: 1, flickerFm: 0.01 },
  "dead time: random-walk FM": { reading: 1, randomWalkFm: 0.1 },
  "dead time: random-walk x0.01": { reading: 1, randomWalkFm: 0.001 },
};

/** What the intervals are proved on: made noise, levels in units of one interval, and chains with a perfect time base. */
export const coverageCases: Readonly<Record<string, RecordMaker>> = {
  ...Object.fromEntries(Object.entries(made).map(([name, noise]) => [name, backToBack(noise)])),
  ...Object.fromEntries(Object.entries(apart).map(([name, noise]) => [name, withDeadTime(noise)])),
  "observatory, whole chain": fromDemo("observatory"),
  "reference-direct": fromDemo("reference-direct"),
};
