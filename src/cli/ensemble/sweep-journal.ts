import {
  closeSync,
  constants,
  fsyncSync,
  ftruncateSync,
  lstatSync,
  openSync,
  readSync,
  rmSync,
  writeSync,
} from "node:fs";
import { join } from "node:path";
import { crc32 } from "node:zlib";
import { FileError, UsageError } from "../failures.ts";

const journalName = ".sweep-journal";
/** How long a row may wait until the disk surely has it; ms. */
const syncEvery = 250;
const chunkSize = 1 << 16;
/** How it is opened, links not followed. */
const goingOn = constants.O_RDWR | constants.O_CREAT | constants.O_APPEND | constants.O_NOFOLLOW;
const anew = constants.O_RDWR | constants.O_CREAT | constants.O_TRUNC | constants.O_NOFOLLOW;

/**
 * Whether an unfinished sweep is in a folder.
 *
 * @throws UsageError where something else has the journal's name: a link would lead the rows to another place
 */
export function hasJournal(folder: string): boolean {
  const path = join(folder, journalName);
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (found && !found.isFile()) {
    throw new UsageError(
      `${path}: is no file that sweep wrote; take it away, or give another folder`,
    );
  }
  return found !== undefined;
}

/**
 * The rows of a sweep that are complete, on disk as they came: a line each, with its number and a checksum.
 *
 * A process may end at any moment: what was written stays, and a line cut off in the middle is dropped when
 * the journal is opened again. In memory are only the places of the rows.
 */
export class SweepJournal {
  /** What the first line says the sweep is; the caller compares it. */
  readonly header: string;
  /** Rows that are there. */
  count = 0;
  private readonly path: string;
  private readonly fd: number;
  private end = 0;
  private lastSync = 0;
  private readonly places: Float64Array;
  private readonly sizes: Int32Array;

  /**
   * Opens the journal of a folder, or begins one.
   *
   * @param folder - the folder, which is there
   * @param header - what the sweep is, on one line
   * @param rows - how many rows it will have
   * @param isNew - whether to begin anew, whatever is there
   * @throws FileError if the system refuses
   */
  constructor(folder: string, header: string, rows: number, isNew: boolean) {
    this.path = join(folder, journalName);
    this.places = new Float64Array(rows);
    this.sizes = new Int32Array(rows);
    this.fd = this.trying("write", () => openSync(this.path, isNew ? anew : goingOn));
    const found = this.trying("read", () => this.readAll());
    this.header = found ?? header;
    this.trying("write", () => ftruncateSync(this.fd, this.end));
    if (found === null) this.append(header);
  }

  /** Whether a row is there. */
  has(row: number): boolean {
    return this.sizes[row]! > 0;
  }

  /** Adds a row that was computed; `text` is one line. */
  add(row: number, text: string): void {
    const line = `${row}\t${text}`;
    const place = this.append(line);
    const prefix = Buffer.byteLength(`${checksum(line)}\t${row}\t`);
    this.note(row, place + prefix, Buffer.byteLength(text));
    const now = Date.now();
    if (now - this.lastSync > syncEvery) this.sync(now);
  }

  /** The text of a row that is there. */
  read(row: number): string {
    const data = Buffer.alloc(this.sizes[row]!);
    this.trying("read", () => readSync(this.fd, data, 0, data.length, this.places[row]!));
    return data.toString("utf8");
  }

  /** Makes sure that the disk has all rows, and closes the file. */
  close(): void {
    this.sync(0);
    closeSync(this.fd);
  }

  /** Takes the journal away: its rows are elsewhere. */
  remove(): void {
    closeSync(this.fd);
    rmSync(this.path, { force: true });
  }

  private sync(now: number): void {
    this.trying("write", () => fsyncSync(this.fd));
    this.lastSync = now;
  }

  private note(row: number, place: number, size: number): void {
    if (!this.has(row)) this.count++;
    this.places[row] = place;
    this.sizes[row] = size;
  }

  /** Appends a line with its checksum; returns its place. */
  private append(text: string): number {
    const data = Buffer.from(`${checksum(text)}\t${text}\n`, "utf8");
    const place = this.end;
    this.trying("write", () => {
      for (let done = 0; done < data.length; ) done += writeSync(this.fd, data, done);
    });
    this.end += data.length;
    return place;
  }

  /** Reads the lines that are whole; returns the header, or null where there is none. */
  private readAll(): string | null {
    let header: string | null = null;
    let rest = Buffer.alloc(0);
    const chunk = Buffer.alloc(chunkSize);
    for (let at = 0; ; ) {
      const got = readSync(this.fd, chunk, 0, chunkSize, at);
      if (got === 0) return header;
      at += got;
      rest = Buffer.concat([rest, chunk.subarray(0, got)]);
      for (let stop = rest.indexOf(10); stop >= 0; stop = rest.indexOf(10)) {
        const line = rest.subarray(0, stop).toString("utf8");
        const text = line.slice(9);
        if (line.slice(0, 9) !== `${checksum(text)}\t`) return header;
        if (header === null) header = text;
        else {
          const tab = text.indexOf("\t");
          const size = Buffer.byteLength(text.slice(tab + 1));
          this.note(Number(text.slice(0, tab)), this.end + stop - size, size);
        }
        this.end += stop + 1;
        rest = rest.subarray(stop + 1);
      }
    }
  }

  private trying<T>(action: string, act: () => T): T {
    try {
      return act();
    } catch (cause) {
      throw new FileError(action, this.path, cause);
    }
  }
}

/** Eight hexadecimal digits. */
const checksum = (text: string): string => crc32(text).toString(16).padStart(8, "0");
