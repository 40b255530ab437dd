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
  ENOENT: "there is no such file or folder; look at the path",
  EACCES: "permission denied; change the permissions, or use another place",
  EPERM: "the system does not permit it; use another place",
  EISDIR: "it is a folder; give a file",
  ENOTDIR: "a part of the path is not a folder; look at the path",
  EEXIST: "something of that name exists already; move it away, or use another name",
  ENOSPC: "no space is left on the device; free some, or give another folder with --out",
  EDQUOT: "the disk quota is used up; free some space, or give another folder with --out",
  EROFS: "the file system is read-only; give another folder with --out",
  EPIPE: "the reader of the pipe has gone",
  EMFILE: "too many files are open; close other programs, or raise the limit (ulimit -n)",
  ENAMETOOLONG: "the name is too long; use a shorter one",
  ELOOP: "its symbolic links lead in a circle; mend them",
  EFBIG: "the file would be larger than the system allows (ulimit -f)",
  EIO: "the device reports an error; it may be failing",
};

/** The system's error code in words. */
export function systemReason(cause: unknown): string {
  const code = (cause as NodeJS.ErrnoException | null)?.code;
  if (code !== undefined) return reasons[code] ?? code;
  return cause instanceof Error ? cause.message : String(cause);
}
