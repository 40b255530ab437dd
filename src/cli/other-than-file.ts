import { statSync } from "node:fs";

/**
 * Whether something is at a path that is no plain file, such as a device, a named pipe or a folder; links are followed.
 *
 * @param path - the path; nothing at all, or nothing that can be reached, is no obstacle
 */
export function isOtherThanFile(path: string): boolean {
  try {
    return !statSync(path).isFile();
  } catch {
    return false;
  }
}

/** What is said of it. */
export const noFile = (path: string): string =>
  `${path} is there and is no file, so it is not replaced; give another name`;
