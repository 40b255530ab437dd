export { type Beat, beats } from "./beat.ts";
export { BurstDrive } from "./burst-drive.ts";
export type { DriveParameters } from "./drive-parameters.ts";
