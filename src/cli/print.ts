import { writeAll } from "./text-sink.ts";

/** What standard output is called in errors. */
export const standardOutput = "standard output";

/**
 * Writes a text to standard output, all of it or an error: where stdout is a file on a disk that fills up, a stream
 * would keep quiet about a write cut short.
 *
 * @param text - the text, line ends included
 * @throws FileError when the system refuses
 */
export function print(text: string): void {
  writeAll(1, standardOutput, Buffer.from(text, "utf8"));
}
