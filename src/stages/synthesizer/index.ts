export { finestScale } from "./finest-scale.ts";
export { FoldedGrid } from "./folded-grid.ts";
export { leftOutTerms } from "./left-out.ts";
export { type LoopConstants, loopAutocorrelation } from "./loop-autocorrelation.ts";
export { loopEntries, loopInputs } from "./loop-inputs.ts";
export { loopNoise } from "./loop-noise.ts";
export {
  closedLoopResponse,
  errorResponse,
  loopGains,
  loopNoiseBandwidth,
} from "./loop-response.ts";
export { loopStart } from "./loop-start.ts";
export { type LoopGroup, loopStep } from "./loop-step.ts";
export { densityAboutReference, outputDensity } from "./output-density.ts";
export { type RmsJitter, rmsJitter } from "./rms-jitter.ts";
export { setFrequency } from "./set-frequency.ts";
export { type Setting, settingOf } from "./setting.ts";
export { SpurLines } from "./spur-lines.ts";
export { relaxationVariance, whiteVariance } from "./stationary-variance.ts";
export { Synthesizer } from "./synthesizer.ts";
export { synthesizerKeys } from "./synthesizer-keys.ts";
export type { SynthesizerParameters } from "./synthesizer-parameters.ts";
