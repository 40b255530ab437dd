export { Oscillator } from "./oscillator.ts";
export {
  environmentSchema,
  environmentToJson,
  referenceSchema,
  referenceToJson,
  resolveEnvironment,
  resolveReference,
  senseOfReference,
} from "./oscillator-keys.ts";
export type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";
export { RateCourse } from "./rate-course.ts";
