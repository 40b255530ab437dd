export { amplitudeNodes } from "./amplitude-nodes.ts";
export { beatNoise, type DelayByPhase } from "./beat-noise.ts";
export { betweenPhases } from "./between-phases.ts";
export { BoundaryTree, nodeSize } from "./boundary-tree.ts";
export {
  amplitudeAt,
  BridgeCrossing,
  fromClock,
  fromValue,
  toClock,
  toValue,
} from "./bridge-crossing.ts";
export { burstDelayLaw } from "./burst-delay-law.ts";
export { BurstDetector } from "./burst-detector.ts";
export { BurstFrame } from "./burst-frame.ts";
export { burstGrid } from "./burst-grid.ts";
export { burstOutcome } from "./burst-outcome.ts";
export { chargeReach } from "./charge-reach.ts";
export { DelaySampler, type DelayTables, delayTables } from "./delay-sampler.ts";
export { type DetectionTheory, detectionTheory, type TheoryTone } from "./detection-theory.ts";
export { Deviates } from "./deviates.ts";
export { type DriveMargin, driveMargin } from "./drive-margin.ts";
export { MeanPath } from "./mean-path.ts";
export { MissProbability } from "./miss-probability.ts";
export { noiseFreeCrossing } from "./noise-free-crossing.ts";
export { PassageKernel } from "./passage-kernel.ts";
export { periodicInterpolation } from "./periodic-interpolation.ts";
export { highestCharge, steadyCharge } from "./reachable-charge.ts";
export type { ReceivedTone } from "./received-tone.ts";
export {
  receiverSchema,
  receiverToJson,
  resolveReceiver,
  senseOfReceiver,
} from "./receiver-keys.ts";
export type { ReceiverParameters } from "./receiver-parameters.ts";
export { RectifiedTone } from "./rectified-tone.ts";
export { stepSlips } from "./step-slips.ts";
export { timeToForget } from "./time-to-forget.ts";
