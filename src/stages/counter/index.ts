export type { Counter } from "./counter.ts";
export { counterKeys } from "./counter-keys.ts";
export { counterNoise, edgeSlips } from "./counter-noise.ts";
export type { CounterParameters } from "./counter-parameters.ts";
export { DirectCounter } from "./direct-counter.ts";
export { EdgeInput } from "./edge-input.ts";
export { edgeSelection, isClear } from "./edge-selection.ts";
export {
  type ErrorLaw,
  errorCells,
  errorLaw,
  errorReach,
  errorWidth,
  gaussianLaw,
} from "./error-law.ts";
export { type GateSetting, type GateTimes, gateTimes } from "./gate-times.ts";
export { type GateTiming, gateTiming, isStill, readingExcess } from "./gate-timing.ts";
export { hidesEdges } from "./hides-edges.ts";
export { Reading, type ReadingSink } from "./reading.ts";
export { ReciprocalCounter } from "./reciprocal-counter.ts";
export { ownTimeBase, referenceTimeBase, type TimeBase } from "./time-base.ts";
export { TimeIntervalCounter } from "./time-interval-counter.ts";
export { quantize } from "./time-stamp.ts";
