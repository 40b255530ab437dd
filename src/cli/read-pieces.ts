import { closeSync, fstatSync, openSync, readSync } from "node:fs";

/** How long to wait before a pipe with nothing in it is tried again; ms. */
const pipeWait = 5;
const pieceSize = 1 << 20;

/**
 * Reads a file piece by piece, but not one without end: a device, or a pipe that never stops.
 *
 * @param file - path, or 0 for standard input
 * @param most - bytes that may be read
 * @param take - takes each piece, which is used again afterwards
 * @returns whether that was all
 * @throws the system's error where it cannot be read
 */
export function readPieces(
  file: string | 0,
  most: number,
  take: (piece: Uint8Array) => void,
): boolean {
  const fd = file === 0 ? 0 : openSync(file, "r");
  try {
    if (fstatSync(fd).size > most) return false;
    const piece = Buffer.alloc(Math.min(pieceSize, most + 1));
    for (let length = 0; length <= most; ) {
      const got = readWaiting(fd, piece);
      if (got === 0) return true;
      length += got;
      if (length <= most) take(piece.subarray(0, got));
    }
    return false;
  } finally {
    if (file !== 0) closeSync(fd);
  }
}

/** Reads what is there, waiting where a pipe is empty and not closed. */
function readWaiting(fd: number, piece: Buffer): number {
  for (;;) {
    try {
      return readSync(fd, piece, 0, piece.length, null);
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "EAGAIN") throw cause;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pipeWait);
    }
  }
}
