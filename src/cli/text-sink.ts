import { createHash } from "node:crypto";
import { closeSync, openSync, writeSync } from "node:fs";
import { FileError } from "./failures.ts";

/** Size and digest of a text that was written. */
export interface Written {
  /** Bytes in UTF-8. */
  readonly bytes: number;
  /** SHA-256, 64 hexadecimal digits. */
  readonly sha256: string;
}

/** Takes text piece by piece and knows its digest at the end. */
export interface TextSink {
  write(text: string): void;
  /** Ends the text. */
  close(): Written;
}

/** Text that gathers before it goes out; characters. */
const bufferLength = 1 << 16;

/** How long to wait before a full pipe is tried again; ms. */
const pipeWait = 5;

/**
 * A sink to an open file, or to nowhere, which only counts and digests.
 *
 * @param target - descriptor and the path to name in errors; null for nowhere
 * @throws FileError from `write` and `close` when the system refuses
 */
export function textSink(
  target: { readonly fd: number; readonly path: string } | null,
): TextSink & { flush(): void } {
  const hash = createHash("sha256");
  let bytes = 0;
  let buffer = "";
  const flush = () => {
    if (buffer === "") return;
    const data = Buffer.from(buffer, "utf8");
    buffer = "";
    hash.update(data);
    bytes += data.length;
    if (target !== null) writeAll(target.fd, target.path, data);
  };
  return {
    flush,
    write(text) {
      buffer += text;
      if (buffer.length >= bufferLength) flush();
    },
    close() {
      flush();
      return { bytes, sha256: hash.digest("hex") };
    },
  };
}

/**
 * Opens a new file for writing.
 *
 * @param path - the file, which must not be there yet
 * @param shownAs - what to call it in errors
 * @returns sink whose `close` closes the file too
 * @throws FileError when it cannot be opened
 */
export function fileSink(path: string, shownAs = path): TextSink & { abandon(): void } {
  let fd: number;
  try {
    fd = openSync(path, "wx");
  } catch (cause) {
    throw new FileError("write", shownAs, cause);
  }
  const sink = textSink({ fd, path: shownAs });
  let isOpen = true;
  const close = () => {
    if (isOpen) closeSync(fd);
    isOpen = false;
  };
  return {
    write: sink.write,
    close() {
      const written = sink.close();
      close();
      return written;
    },
    abandon: close,
  };
}

/**
 * Writes all of it, waiting where a pipe is full.
 *
 * @param path - what to call the file in errors
 * @throws FileError when the system refuses
 */
export function writeAll(fd: number, path: string, data: Uint8Array): void {
  let done = 0;
  while (done < data.length) {
    try {
      done += writeSync(fd, data, done);
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "EAGAIN")
        throw new FileError("write", path, cause);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pipeWait);
    }
  }
}
