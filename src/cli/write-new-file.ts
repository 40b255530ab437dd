import { existsSync, renameSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { FileError, UsageError } from "./failures.ts";
import { isOtherThanFile, noFile } from "./other-than-file.ts";
import { fileSink } from "./text-sink.ts";

/**
 * Writes a whole file: under a temporary name first, so that nothing half-written is ever seen.
 *
 * @param mayReplace - whether a file that is there may be replaced
 * @throws UsageError if the file is there and must not be replaced, or is no file; FileError if it cannot be written
 */
export function writeNewFile(path: string, text: string, mayReplace: boolean): void {
  if (isOtherThanFile(path)) throw new UsageError(noFile(path));
  if (!mayReplace && existsSync(path)) {
    throw new UsageError(`${path} exists already; give --force to replace it, or another name`);
  }
  const temporary = join(dirname(path), `.${basename(path)}.part-${process.pid}`);
  const sink = fileSink(temporary, path);
  try {
    sink.write(text);
    sink.close();
    renameSync(temporary, path);
  } catch (error) {
    sink.abandon();
    rmSync(temporary, { force: true });
    throw error instanceof FileError ? error : new FileError("write", path, error);
  }
}
