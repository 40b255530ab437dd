import {
  closeSync,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { FileError, UsageError } from "./failures.ts";
import { fileSink, type TextSink, type Written } from "./text-sink.ts";

/** Descriptor of a folder of results. */
export const packageName = "datapackage.json";

const lockName = ".tickwright-lock";
const inUse = "another run is writing to this folder; wait for it, or give another folder";

/**
 * A folder of results. Files are written under temporary names and take their own only when all are
 * complete, so that nothing half-written is ever seen and what was there before stays until then.
 */
export class OutputFolder {
  readonly path: string;
  private readonly files = new Map<string, ReturnType<typeof fileSink>>();
  private readonly lock: string;
  private readonly madeFolder: string | undefined;
  /** Whether the lock is held by this run. */
  private isOurs = false;

  /**
   * Opens the folder and locks it against a second run.
   *
   * @param path - the folder; made if it is not there
   * @param names - files that are going to be written
   * @param mayReplace - whether files of these names may be replaced
   * @throws FileError if it cannot be made or written to, or another run is writing there
   * @throws UsageError if a file is there and must not be replaced, or something that is no file
   */
  constructor(path: string, names: readonly string[], mayReplace: boolean) {
    this.path = path;
    try {
      this.madeFolder = makeFolder(resolve(path));
    } catch (cause) {
      throw new FileError("make this folder", path, cause);
    }
    this.lock = join(path, lockName);
    try {
      takeLock(this.lock, path);
      this.isOurs = true;
    } catch (error) {
      this.removeMadeFolders();
      throw error;
    }
    try {
      refuseOccupied(path, names, mayReplace);
      removeLeftovers(path, names);
    } catch (error) {
      this.abandon();
      throw error;
    }
  }

  /** Opens one of the files for writing. */
  open(name: string): TextSink {
    const sink = fileSink(this.temporary(name), join(this.path, name));
    this.files.set(name, sink);
    return sink;
  }

  /** Writes a whole file. */
  write(name: string, text: string): Written {
    const sink = this.open(name);
    sink.write(text);
    return sink.close();
  }

  /**
   * Gives all files their names, the descriptor last, and unlocks the folder.
   *
   * @param results - names of all results of such a command: those that an earlier one left, and this one does not
   *   write, would pass for results of this one, and go. Only in a folder that a descriptor shows to be one of results.
   */
  commit(results: readonly string[] = []): void {
    if (existsSync(join(this.path, packageName))) {
      for (const name of results) {
        if (!this.files.has(name)) rmSync(join(this.path, name), { force: true });
      }
    }
    for (const name of this.files.keys()) {
      try {
        renameSync(this.temporary(name), join(this.path, name));
      } catch (cause) {
        throw new FileError("write", join(this.path, name), cause);
      }
    }
    this.files.clear();
    rmSync(this.lock, { force: true });
    this.isOurs = false;
  }

  /** Removes what was not committed; nothing once all is, when another run may be at work here. */
  abandon(): void {
    if (!this.isOurs) return;
    for (const [name, sink] of this.files) {
      sink.abandon();
      rmSync(this.temporary(name), { force: true });
    }
    this.files.clear();
    rmSync(this.lock, { force: true });
    this.removeMadeFolders();
  }

  /** Takes away the folders made for this run, so far as they are empty. */
  private removeMadeFolders(): void {
    if (this.madeFolder !== undefined) removeEmpty(resolve(this.path), this.madeFolder);
  }

  private temporary(name: string): string {
    return join(this.path, `.${name}.part-${process.pid}`);
  }
}

/**
 * Opens a folder, lets something write into it, and commits; where that fails nothing is left behind.
 *
 * @param path - as for {@link OutputFolder}
 * @param act - writes the files
 * @returns what `act` returns
 */
export function inFolder<T>(
  path: string,
  names: readonly string[],
  mayReplace: boolean,
  act: (folder: OutputFolder) => T,
): T {
  const folder = new OutputFolder(path, names, mayReplace);
  try {
    const result = act(folder);
    folder.commit();
    return result;
  } catch (error) {
    folder.abandon();
    throw error;
  }
}

/** Writes one whole file, which may be replaced where `mayReplace` says so; makes its folder. */
export function writeFile(path: string, text: string, mayReplace: boolean): Written {
  const name = basename(path);
  return inFolder(dirname(path), [name], mayReplace, (folder) => folder.write(name, text));
}

/**
 * Makes a folder and those above it that are not there; tells the topmost one made. (`mkdirSync` with `recursive`
 * tries for ever on Node 20 where a file system, such as /proc, has no place for new folders.)
 */
function makeFolder(path: string): string | undefined {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) return undefined;
  const above = dirname(path);
  const top = above === path ? undefined : makeFolder(above);
  try {
    mkdirSync(path);
  } catch (cause) {
    // Another run may have made it in the meantime.
    if (statsOf(path)?.isDirectory()) return top;
    if (top !== undefined) removeEmpty(above, top);
    throw cause;
  }
  return top ?? path;
}

/** Takes a folder away and those above it up to `top`, so far as they are empty. */
function removeEmpty(path: string, top: string): void {
  for (let folder = path; folder.startsWith(top); folder = dirname(folder)) {
    try {
      rmdirSync(folder);
    } catch {
      return;
    }
  }
}

function takeLock(lock: string, path: string): void {
  for (const isFirstTry of [true, false]) {
    let isMade = false;
    try {
      const fd = openSync(lock, "wx");
      isMade = true;
      try {
        writeSync(fd, String(process.pid));
      } finally {
        closeSync(fd);
      }
      return;
    } catch (cause) {
      if (isMade) rmSync(lock, { force: true });
      const isTaken = !isMade && (cause as NodeJS.ErrnoException).code === "EEXIST";
      if (!isTaken) throw new FileError("write in this folder", path, cause);
      if (isFirstTry && isStale(lock)) rmSync(lock, { force: true });
      else throw new FileError("write here", path, new Error(inUse));
    }
  }
}

/** Whether the process that took a lock is gone. */
function isStale(lock: string): boolean {
  try {
    // A link or a pipe is none of ours, and would not be read to its end.
    if (!lstatSync(lock).isFile()) return false;
    const pid = Number(readFileSync(lock, "utf8"));
    if (!Number.isInteger(pid) || pid <= 0) return Date.now() - statSync(lock).mtimeMs > 10_000;
    // In a fresh container a new process may well have the number of the one that was killed.
    if (pid === process.pid) return true;
    process.kill(pid, 0);
    return false;
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    return code === "ESRCH" || code === "ENOENT";
  }
}

/**
 * Refuses to write over what must stay. A device, a pipe or a folder is never replaced, by `--force` neither: what else
 * uses it would lose it.
 */
function refuseOccupied(path: string, names: readonly string[], mayReplace: boolean): void {
  for (const name of names) {
    const file = join(path, name);
    const found = statsOf(file);
    if (found && !found.isFile())
      throw new UsageError(
        `${file} is there and is no file, so it is not replaced; give another name`,
      );
    if (found && !mayReplace)
      throw new UsageError(`${file} exists already; give --force to replace it, or another place`);
  }
}

/** What is at a path, links followed; null where nothing is, or nothing that can be reached. */
function statsOf(path: string) {
  try {
    return statSync(path);
  } catch {
    return null;
  }
}

/** Removes what a run that was killed left half written; the lock says that none is at work. */
function removeLeftovers(path: string, names: readonly string[]): void {
  for (const file of readdirSync(path)) {
    const name = /^\.(.+)\.part-\d+$/.exec(file)?.[1];
    if (name === undefined || !names.includes(name)) continue;
    try {
      rmSync(join(path, file), { force: true });
    } catch {
      // A folder of such a name is none of ours.
    }
  }
}
