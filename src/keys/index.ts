export {
  type NoiseDocument,
  noiseSchema,
  noiseToJson,
  resolveNoise,
  senseOfNoise,
} from "./noise-keys.ts";
export { count, finite, fraction, nonNegative, positive, probability, short } from "./quantity.ts";
export {
  type Fault,
  type KeyPath,
  type Sense,
  SenseReport,
  type Warning,
} from "./sense-report.ts";
