export { ladder, poleVariance } from "./ladder.ts";
export { leastSquares } from "./least-squares.ts";
export type { Levels } from "./levels.ts";
export { NoisePosterior } from "./noise-posterior.ts";
export type { ReadingRecord } from "./reading-record.ts";
export { toEvents } from "./to-events.ts";
export { slowerThanLadder } from "./ladder.ts";
export type { Known } from "./prior.ts";
