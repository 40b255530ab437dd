import type { DriveParameters } from "./drive-parameters.ts";

/** Frequency of the tone as it is; Hz. */
export function toneHz(drive: DriveParameters): number {
  return drive.carrierHz * (1 + drive.carrierFractionalOffset);
}
