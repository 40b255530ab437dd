export { AliasTable } from "./alias-table.ts";
export { binomial } from "./binomial.ts";
export { chiSquareQuantile } from "./chi-square.ts";
export { cholesky } from "./cholesky.ts";
export { devianceTerm } from "./deviance-term.ts";
export { erfc, erfcx } from "./erfc.ts";
export { exponential } from "./exponential.ts";
export { indexOfOne, powersOfTwo, scaleByPowerOfTwo } from "./float-bits.ts";
export { incompleteBeta } from "./incomplete-beta.ts";
export {
  gammaDensityTimesX,
  lowerIncompleteGamma,
  upperIncompleteGamma,
} from "./incomplete-gamma.ts";
export { Instant } from "./instant.ts";
export { type LinearTransition, linearTransition } from "./linear-transition.ts";
export { lnGamma } from "./ln-gamma.ts";
export { median, present, robustDeviation, select } from "./median.ts";
export { monotoneRoot } from "./monotone-root.ts";
export { normalCdf } from "./normal-cdf.ts";
export { normalQuantile } from "./normal-quantile.ts";
export { exp, expm1 } from "./portable-exp.ts";
export { log, log1p } from "./portable-log.ts";
export { pow } from "./portable-pow.ts";
export { RandomStream } from "./random-stream.ts";
export { shortNumber } from "./short-number.ts";
export { cosTurns, sinTurns } from "./sin-cos-turns.ts";
export { stirlingError } from "./stirling-error.ts";
export { highPart, twoProductError } from "./two-product.ts";
export { fillTycheI } from "./tyche-i.ts";
export {
  zigguratArea,
  zigguratDensity,
  zigguratInside,
  zigguratLayers,
  zigguratTail,
  zigguratWidth,
} from "./ziggurat-tables.ts";
