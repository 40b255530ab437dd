import { closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readFileSync } from "node:fs";
import { FileError, UsageError } from "../failures.ts";
import { writeAll } from "../text-sink.ts";

/** How a line of such a log begins: when it came (ISO 8601, UTC, ms) and a tab, or the goal. */
const ours = /^(?:# )?\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z[\t ]/;

/**
 * The log of `watch`: a line a line that came, `2031-05-14T08:00:10.021Z<tab>0.999971030`, its bytes as they were. It is
 * on the disk when `add` returns. The goal stands above the first line, as a comment.
 */
export class WatchLog {
  readonly path: string;
  /** What was in it already; its last line, where a kill cut it short, is taken away: nobody was shown it. */
  readonly before: Buffer;
  readonly #fd: number;

  /** @throws FileError if it cannot be opened; UsageError where it is a file of another kind */
  constructor(path: string) {
    this.path = path;
    try {
      this.#fd = openSync(path, "a+", 0o666);
      const found = readFileSync(this.#fd);
      const whole = found.subarray(0, found.lastIndexOf(10) + 1);
      this.before = whole;
      if (found.length > 0 && !ours.test(found.subarray(0, 100).toString("latin1"))) {
        throw new UsageError(
          `${path} is there and is no log of watch; give --log another name, so that nothing is mixed up`,
        );
      }
      if (!fstatSync(this.#fd).isFile()) {
        throw new UsageError(`${path} is no file; give --log a file, which can be kept`);
      }
      if (whole.length < found.length) ftruncateSync(this.#fd, whole.length);
    } catch (cause) {
      if (cause instanceof UsageError) throw cause;
      throw new FileError("write", path, cause);
    }
  }

  /** Appends to the log, and waits until the disk has it. */
  add(bytes: Uint8Array): void {
    writeAll(this.#fd, this.path, bytes);
    try {
      fsyncSync(this.#fd);
    } catch (cause) {
      throw new FileError("write", this.path, cause);
    }
  }

  close(): void {
    closeSync(this.#fd);
  }
}
