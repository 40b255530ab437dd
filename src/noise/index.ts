export { allanVariance } from "./allan-variance.ts";
export {
  flickerFmLevel,
  flickerPmAllanVariance,
  flickerPmConstant,
  flickerPmLevel,
  randomWalkFmLevel,
  whiteFmLevel,
  whitePmRms,
} from "./noise-conversions.ts";
export { isSilent, type NoiseLevels } from "./noise-levels.ts";
export {
  type OscillatorClass,
  oscillatorClasses,
  type Range,
  typicalOf,
} from "./oscillator-classes.ts";
export { type PhaseLadder, phaseLadder } from "./phase-ladder.ts";
export {
  type FiveLevels,
  fitPhaseNoise,
  missOf,
  type PhaseNoisePoint,
  rateDensityOf,
} from "./phase-noise-fit.ts";
export { mostSteps, PowerLawProcess } from "./power-law-process.ts";
export { type RateLadder, rateLadder } from "./rate-ladder.ts";
export { type BankStep, RelaxationBank } from "./relaxation-bank.ts";
export { RelaxationBridge, type Seen } from "./relaxation-bridge.ts";
export { relaxationLadder } from "./relaxation-ladder.ts";
export { relaxationStep } from "./relaxation-step.ts";
export { abreast, openReadings, relaxationStride } from "./relaxation-stride.ts";
export { frequencyNoiseDensity } from "./spectral-density.ts";
export { StepCache } from "./step-cache.ts";
export { StridedBank } from "./strided-bank.ts";
export { termStep } from "./term-step.ts";
