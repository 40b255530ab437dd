import { type LogOptions, LogReader, type MadeReadings } from "../log/index.ts";
import { DataError, FileError } from "./failures.ts";
import { readPieces } from "./read-pieces.ts";

/** Largest file of readings; bytes. A device may have no end. */
const largest = 500_000_000;

/**
 * Reads a log from a file, or from standard input where the path is `-`.
 *
 * @param take - takes its bytes, too, which are used again afterwards
 * @throws FileError if it cannot be read; DataError if it is too large; InputError if it cannot be understood
 */
export function readLogFile(
  path: string,
  options: LogOptions,
  take: (piece: Uint8Array) => void = () => {},
): MadeReadings {
  const reader = new LogReader(options);
  let isWhole: boolean;
  try {
    isWhole = readPieces(path === "-" ? 0 : path, largest, (piece) => {
      reader.add(piece);
      take(piece);
    });
  } catch (cause) {
    throw new FileError("read", options.file, cause);
  }
  if (!isWhole) {
    throw new DataError(
      `${options.file}: is larger than 500 MB; give its readings in several files`,
    );
  }
  return reader.end();
}
