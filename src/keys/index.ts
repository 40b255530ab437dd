export { likeSchema } from "./like-key.ts";
export { type NoiseDocument, noiseSchema, resolveNoise, senseOfNoise } from "./noise-keys.ts";
export { count, finite, fraction, nonNegative, positive, probability, short } from "./quantity.ts";
export { type SchemaNode, unwrapped, valueAt } from "./schema-node.ts";
export {
  type Derived,
  type Fault,
  type KeyPath,
  type Sense,
  SenseReport,
  type Warning,
} from "./sense-report.ts";
export { asWritten, type InTerms, inTerms } from "./terms.ts";
