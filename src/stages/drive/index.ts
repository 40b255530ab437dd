export { type Beat, beats } from "./beat.ts";
export { BurstDrive } from "./burst-drive.ts";
export { burstEnvelope } from "./burst-envelope.ts";
export { driveKeys } from "./drive-keys.ts";
export type { DriveParameters, EnvelopeKnot } from "./drive-parameters.ts";
export { droppedBursts } from "./dropped-bursts.ts";
export { toneHz } from "./tone-hz.ts";
