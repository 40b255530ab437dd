export { Oscillator } from "./oscillator.ts";
export type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";
export { RateCourse } from "./rate-course.ts";
