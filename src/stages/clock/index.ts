export { drawBounces } from "./bounce.ts";
export {
  clockSchema,
  clockToJson,
  resolveClock,
  senseOfClock,
  stepKeys,
  stepsToJson,
} from "./clock-keys.ts";
export type { ClockParameters, FallbackParameters } from "./clock-parameters.ts";
export { FallbackOscillator } from "./fallback-oscillator.ts";
export { StepCounter } from "./step-counter.ts";
