export {
  type Agreement,
  agreementWith,
  type Compared,
  type Expected,
} from "./agreement.ts";
export {
  type BestFit,
  bestFit,
  type Finding,
  type HeldLevel,
  type HeldRate,
  type SystematicCause,
} from "./best-fit.ts";
export { type CleanReadings, cleanReadings } from "./clean-readings.ts";
export { cleanedEstimates, cleanedRates } from "./cleaned-estimates.ts";
export {
  type CompareOptions,
  type Comparison,
  compareRecords,
  type Difference,
} from "./compare.ts";
export { digitWarnings } from "./digit-warnings.ts";
export { edgeRecord } from "./edge-record.ts";
export { edgeSlopes } from "./edge-slopes.ts";
export { endToEndSlope } from "./end-to-end-slope.ts";
export { estimateRates, plainEstimates, type RateOptions } from "./estimate-rates.ts";
export { extremeDeviates } from "./extreme-deviates.ts";
export { type FittedParameter, fitNoise, type NoiseFit } from "./fit-noise.ts";
export { fittedScenario } from "./fitted-scenario.ts";
export { gateRace } from "./gate-race.ts";
export { type Headline, headlineOf } from "./headline.ts";
export { inferredCycles } from "./inferred-cycles.ts";
export {
  type Judgement,
  type JudgeOptions,
  judgeReadings,
} from "./judge-readings.ts";
export { lineFitSlope } from "./line-fit-slope.ts";
export { meanOfReadingsSlope } from "./mean-of-readings-slope.ts";
export type { Outlier } from "./outlier.ts";
export {
  type EstimatorMethod,
  estimatorMethods,
  type RateEstimate,
  type RateMethod,
  rateMethods,
} from "./rate-estimate.ts";
export { rateOfSlope } from "./rate-of-slope.ts";
export { repairSlips } from "./repair-slips.ts";
export { repeatedReadings } from "./repeated-readings.ts";
export { type Running, RunningJudgement } from "./running-judgement.ts";
export { setSpansApart } from "./set-spans-apart.ts";
export { setStraysApart } from "./set-strays-apart.ts";
export { sourceClasses } from "./source-classes.ts";
export { studentWithin } from "./student-t.ts";
export { toRecord } from "./to-record.ts";
export { notOfOneRate, tooMuchApart } from "./too-much-apart.ts";
