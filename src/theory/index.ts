export { type Complex, divide, exponentialLess1, multiply, squareRoot } from "./complex.ts";
export { autocorrelationAt, type Decay } from "./decay.ts";
export { type Line, type NoiseShape, type NoiseTerm, ownVariance } from "./noise-term.ts";
export { frequencyNoise, phaseNoise } from "./oscillator-noise.ts";
export { type Slips, slipRate, slipTerm } from "./slips.ts";
