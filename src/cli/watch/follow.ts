import { createHash } from "node:crypto";
import {
  closeSync,
  constants,
  createReadStream,
  fstatSync,
  openSync,
  readSync,
  statSync,
} from "node:fs";
import type { Readable } from "node:stream";
import { isatty, ReadStream } from "node:tty";
import { FileError, UsageError } from "../failures.ts";

/** Who takes what a source gives. */
export interface Follower {
  /** Takes bytes as they come, which are not used again. */
  bytes(data: Buffer): void;
  /** Something happened to the source; `isOther`: what follows is no continuation. */
  event(text: string, isOther: boolean): void;
  /** Nothing more will come. */
  end(): void;
  fail(error: Error): void;
  /** Whether it has enough to do for the moment. */
  readonly isBusy: boolean;
}

/** How often a file is looked at; ms. */
const interval = 100;
const piece = 1 << 18;
/** Beginning of a file by which it is known again; bytes. */
const headLength = 1 << 16;

/** Where readings come from, opened. */
export interface Source {
  readonly path: string;
  readonly fd: number;
  readonly isFile: boolean;
}

/**
 * Opens what is to be followed: standard input, a device, a pipe or a file that grows.
 *
 * @param path - the path, or `-`
 * @param isLogged - whether what comes is kept in a log
 * @throws FileError if it cannot be opened; UsageError for a file that is to be logged again
 */
export function openSource(path: string, isLogged: boolean): Source {
  if (path === "-") return { path: "standard input", fd: 0, isFile: false };
  try {
    const stats = statSync(path);
    if (stats.isFile() && isLogged) {
      throw new UsageError(
        `${path} is a file and keeps its lines itself; --log is for a device or standard input`,
      );
    }
    // A serial line would wait for its carrier; a terminal must not become that of the program.
    const { O_RDONLY, O_NONBLOCK = 0, O_NOCTTY = 0 } = constants;
    const flags = stats.isCharacterDevice() ? O_RDONLY | O_NOCTTY | O_NONBLOCK : O_RDONLY;
    return { path, fd: openSync(path, flags), isFile: stats.isFile() };
  } catch (cause) {
    if (cause instanceof UsageError) throw cause;
    throw new FileError("read", path, cause);
  }
}

/**
 * Follows a source.
 *
 * @returns ends it
 */
export function follow({ path, fd, isFile }: Source, follower: Follower): () => void {
  if (isFile) return followFile(path, fd, follower);
  const stream =
    fd === 0 ? process.stdin : isatty(fd) ? new ReadStream(fd) : createReadStream("", { fd });
  return followStream(stream, path, follower);
}

function followStream(stream: Readable, path: string, follower: Follower): () => void {
  stream.on("data", (data: Buffer) => {
    follower.bytes(data);
    if (!follower.isBusy) return;
    stream.pause();
    const timer = setInterval(() => {
      if (follower.isBusy) return;
      clearInterval(timer);
      stream.resume();
    }, interval / 10);
  });
  stream.on("end", () => follower.end());
  stream.on("error", (cause: NodeJS.ErrnoException) => {
    // The other end of a line has hung up.
    if (cause.code === "EIO") follower.end();
    else follower.fail(new FileError("read", path, cause));
  });
  return () => stream.destroy();
}

/**
 * A file that grows, and may be cut, replaced or gone for a while. One that begins as what was read goes on where
 * that ended; any other is read from its beginning, as another run.
 */
function followFile(path: string, first: number, follower: Follower): () => void {
  let fd = first;
  let hash = createHash("sha256");
  let head = Buffer.alloc(0);
  let read = 0;
  let isGone = false;
  /** Whether another file has taken the place, of which it is not known yet how it begins. */
  let isOther = false;

  const take = (): boolean => {
    const data = Buffer.alloc(piece);
    const got = readSync(fd, data, 0, piece, read);
    if (got === 0) return false;
    const bytes = data.subarray(0, got);
    read += got;
    hash.update(bytes);
    if (head.length < headLength) {
      head = Buffer.concat([head, bytes.subarray(0, headLength - head.length)]);
    }
    follower.bytes(bytes);
    return true;
  };
  /** How the file begins: as what was read, otherwise, or not to be told yet. */
  const beginning = (): "same" | "other" | "open" => {
    const { size } = fstatSync(fd);
    const start = Buffer.alloc(Math.min(size, head.length));
    readSync(fd, start, 0, start.length, 0);
    if (!start.equals(head.subarray(0, start.length))) return "other";
    if (size < read) return start.length < head.length ? "open" : "other";
    const whole = createHash("sha256");
    const data = Buffer.alloc(piece);
    for (let at = 0; at < read; ) {
      const got = readSync(fd, data, 0, Math.min(piece, read - at), at);
      if (got === 0) return "other";
      whole.update(data.subarray(0, got));
      at += got;
    }
    return whole.digest("hex") === hash.copy().digest("hex") ? "same" : "other";
  };
  const look = () => {
    const now = statSync(path, { throwIfNoEntry: false });
    if (now === undefined) {
      if (!isGone) follower.event(`${path} is gone; what comes in its place will be read`, false);
      isGone = true;
    } else if (isGone || now.ino !== fstatSync(fd).ino || now.dev !== fstatSync(fd).dev) {
      while (take());
      closeSync(fd);
      fd = openSync(path, constants.O_RDONLY);
      isGone = false;
      isOther = true;
    } else if (now.size < read) isOther = true;
    if (isOther) {
      const how = beginning();
      if (how === "open") return;
      isOther = false;
      if (how === "other") {
        follower.event(`${path} was cut or replaced: what follows is taken as another run`, true);
        [hash, head, read] = [createHash("sha256"), Buffer.alloc(0), 0];
      }
    }
    while (!follower.isBusy && take());
  };
  const timer = setInterval(() => {
    try {
      look();
    } catch (cause) {
      clearInterval(timer);
      follower.fail(new FileError("read", path, cause));
    }
  }, interval);
  return () => {
    clearInterval(timer);
    closeSync(fd);
  };
}
