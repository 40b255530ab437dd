export { type Beat, beats } from "./beat.ts";
export { BurstDrive } from "./burst-drive.ts";
export { burstEnvelope } from "./burst-envelope.ts";
export type { DriveParameters, EnvelopeKnot } from "./drive-parameters.ts";
