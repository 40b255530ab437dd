export { amplitudeNodes } from "./amplitude-nodes.ts";
export { beatNoise, type DelayByPhase, delaySwing } from "./beat-noise.ts";
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
export { BurstCharge } from "./burst-charge.ts";
export { BurstDetector } from "./burst-detector.ts";
export { burstOutcome } from "./burst-outcome.ts";
export { chargeLeft, timeToForget } from "./charge-left.ts";
export { DelayLaw, delayLaw, type PhaseLaw } from "./delay-law.ts";
export { DelaySampler, type DelayTables, delayTables } from "./delay-sampler.ts";
export { DetectorState } from "./detector-state.ts";
export { Deviates } from "./deviates.ts";
export { type DriveMargin, driveMargin } from "./drive-margin.ts";
export { highestCharge } from "./highest-charge.ts";
export { burstLength, type DrivenTone, type ReceivedTone } from "./received-tone.ts";
export { receiverKeys } from "./receiver-keys.ts";
export type { ReceiverParameters } from "./receiver-parameters.ts";
export { RectifiedTone } from "./rectified-tone.ts";
export { stepSlips } from "./step-slips.ts";
