import { closeSync, fstatSync, openSync, readSync } from "node:fs";

/** How long to wait before a pipe with nothing in it is tried again; ms. */
const pipeWait = 5;
const leastPiece = 1 << 16;
const mostPiece = 1 << 24;

/**
 * Reads a file whole, but not one without end: a device, or a pipe that never stops.
 *
 * @param file - path, or 0 for standard input
 * @param most - bytes that may be read
 * @returns the bytes, or null where there are more
 * @throws the system's error where it cannot be read
 */
export function readAtMost(file: string | 0, most: number): Buffer | null {
  const fd = file === 0 ? 0 : openSync(file, "r");
  try {
    const { size } = fstatSync(fd);
    if (size > most) return null;
    const pieceSize = Math.min(mostPiece, Math.max(leastPiece, size + 1));
    const pieces: Buffer[] = [];
    let length = 0;
    while (length <= most) {
      const piece = Buffer.alloc(pieceSize);
      const got = readWaiting(fd, piece);
      if (got === 0) return Buffer.concat(pieces, length);
      pieces.push(piece.subarray(0, got));
      length += got;
    }
    return null;
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
