import { readFileSync } from "node:fs";
import { DataError, FileError } from "./failures.ts";

/** Largest file of readings; bytes. A string of V8 holds no more than half a thousand million characters. */
const largest = 500_000_000;

/**
 * Reads a file of text, or standard input where the path is `-`.
 *
 * @throws FileError if it cannot be read; DataError if it is too large or no text in UTF-8 (or UTF-16 with a mark)
 */
export function readText(path: string): string {
  let data: Buffer;
  try {
    data = readFileSync(path === "-" ? 0 : path);
  } catch (cause) {
    throw new FileError("read", path === "-" ? "standard input" : path, cause);
  }
  const name = path === "-" ? "standard input" : path;
  if (data.length > largest) throw new DataError(`${name}: is larger than 500 MB`);
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
