export { drawBounces } from "./bounce.ts";
export { clockKeys } from "./clock-keys.ts";
export type { ClockParameters, FallbackParameters } from "./clock-parameters.ts";
export { FallbackOscillator } from "./fallback-oscillator.ts";
export { StepCounter } from "./step-counter.ts";
