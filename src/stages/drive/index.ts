export { type Beat, beats } from "./beat.ts";
export { BurstDrive } from "./burst-drive.ts";
export { driveSchema, driveToJson, resolveDrive, senseOfDrive } from "./drive-keys.ts";
export type { DriveParameters } from "./drive-parameters.ts";
export { droppedBursts } from "./dropped-bursts.ts";
export { toneHz } from "./tone-hz.ts";
