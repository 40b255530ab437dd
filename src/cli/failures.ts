/** The command line asks for something that makes no sense; exit status 2. */
export class UsageError extends Error {}

/** A file could not be read or written; exit status 3. */
export class FileError extends Error {
  /**
   * @param action - what was tried, e.g. "read"
   * @param path - the path at fault
   * @param cause - the system's error
   */
  constructor(action: string, path: string, cause: unknown) {
    super(`${path}: could not ${action}: ${systemReason(cause)}`);
  }
}

/** Data that cannot be used; exit status 2. */
export class DataError extends Error {}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EACCES: "permission denied",
  EPERM: "operation not permitted",
  EISDIR: "it is a folder",
  ENOTDIR: "a part of the path is not a folder",
  EEXIST: "it exists already",
  ENOSPC: "no space is left on the device; free some, or give another folder with --out",
  EDQUOT: "the disk quota is used up",
  EROFS: "the file system is read-only; give another folder with --out",
  EPIPE: "the reader of the pipe has gone",
  EMFILE: "too many files are open",
  ENAMETOOLONG: "the name is too long",
  ELOOP: "too many symbolic links",
  EFBIG: "the file is too large",
  EIO: "input/output error",
};

/** The system's error code in words. */
export function systemReason(cause: unknown): string {
  const code = (cause as NodeJS.ErrnoException | null)?.code;
  if (code !== undefined) return reasons[code] ?? code;
  return cause instanceof Error ? cause.message : String(cause);
}
