import { DataError, FileError } from "./failures.ts";
import { readAtMost } from "./read-at-most.ts";

/** Largest file of readings; bytes. A string of V8 holds no more than half a thousand million characters. */
const largest = 500_000_000;

/**
 * Reads a file of text, or standard input where the path is `-`.
 *
 * @throws FileError if it cannot be read; DataError if it is too large or no text in UTF-8 (or UTF-16 with a mark)
 */
export function readText(path: string): string {
  const name = path === "-" ? "standard input" : path;
  let data: Buffer | null;
  try {
    data = readAtMost(path === "-" ? 0 : path, largest);
  } catch (cause) {
    throw new FileError("read", name, cause);
  }
  if (data === null) {
    throw new DataError(`${name}: is larger than 500 MB; give its readings in several files`);
  }
  const isUtf16 = data[0] === 0xff && data[1] === 0xfe;
  try {
    return new TextDecoder(isUtf16 ? "utf-16le" : "utf-8", { fatal: true, ignoreBOM: true }).decode(
      data,
    );
  } catch {
    // Old instruments write Latin-1: a µ or ° in a heading is no reason to refuse numbers.
    return data.toString("latin1");
  }
}
