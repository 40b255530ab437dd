export {
  type ExplainedRate,
  explainedRate,
  explainedRates,
  type ReferenceRun,
} from "./explained-rates.ts";
export { Oscillator } from "./oscillator.ts";
export { environmentKeys, referenceKeys } from "./oscillator-keys.ts";
export type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";
export { RateCourse } from "./rate-course.ts";
export { timeResolution } from "./time-resolution.ts";
export { wandering } from "./wandering.ts";
