import { type Judgement, RunningJudgement } from "../../judgement/index.ts";
import { LogReader, type MadeReadings } from "../../log/index.ts";
import { InputError } from "../../readings/index.ts";
import { DataError } from "../failures.ts";
import { type JudgedLog, type LogTerms, readingsToJudge, withNotes } from "../judge-log.ts";
import { outliersInWords } from "../outliers-in-words.ts";
import { LineCutter } from "./line-cutter.ts";
import type { WatchLog } from "./watch-log.ts";
import { valueAt, type WatchRow } from "./watch-rows.ts";
import { stripLength, type WatchState } from "./watch-status.ts";

/** Lines waiting beyond which the source is to pause. */
const mostWaiting = 20_000;
/** Longest stretch without a look at signals and input; ms. */
const breath = 50;

/** How a watch ended. */
export type Ended = "goal_met" | "stopped" | "input_ended";

/** Who shows what a session finds. */
export interface WatchView {
  row(row: WatchRow): void;
  /** Something about the source, or the record as a whole. */
  event(text: string): void;
  status(state: () => WatchState): void;
}

/** What is asked of a session. */
export interface WatchAsked {
  readonly name: string;
  readonly goal: number | null;
  readonly of: "run" | "day" | "long";
  readonly untilKnown: boolean;
  readonly isSealed: boolean;
}

/** Takes bytes as they come, keeps them in the log, and judges line by line. */
export class WatchSession {
  readonly #terms: LogTerms;
  readonly #asked: WatchAsked;
  readonly #log: WatchLog | null;
  readonly #view: WatchView;
  readonly #reader: LogReader;
  readonly #judgement: RunningJudgement;
  readonly #cutter = new LineCutter();
  /** Lines that came and were not looked at yet; where they came as bytes for the log, stamp included. */
  #waiting: { bytes: Buffer; at: Date | null }[] = [];
  #wake: () => void = () => {};
  #ended: Ended | null = null;
  #error: unknown = null;
  /** Since when the program has been at work without a look at its input; null where it was not. */
  #busyFrom: number | null = null;
  #line = 0;
  #shown = 0;
  #sinceLook = 0;
  #looked = 0;
  readonly #arrival = new Map<number, Date>();
  readonly #told = new Set<string>();
  readonly #recent: number[] = [];
  #running: WatchState["running"] = null;
  #unclear = "";
  #retryAt = 0;
  #spacing = Number.NaN;
  #lastAt: Date | null = null;
  #metAt: number | null = null;

  constructor(terms: LogTerms, asked: WatchAsked, log: WatchLog | null, view: WatchView) {
    this.#terms = terms;
    this.#asked = asked;
    this.#log = log;
    this.#view = view;
    this.#reader = new LogReader(terms.log);
    const { goal, of } = asked;
    this.#judgement = new RunningJudgement({
      ...terms.known,
      of,
      ...(goal === null ? {} : { within: goal }),
    });
    const before = log?.before ?? Buffer.alloc(0);
    if (before.length > 0) this.#resume(before);
  }

  get isBusy(): boolean {
    return this.#waiting.length > mostWaiting;
  }

  /** At which reading, counted from 1, the goal was met; null before. */
  get metAt(): number | null {
    return this.#metAt;
  }

  bytes(data: Buffer): void {
    if (this.#line === 0 && this.#waiting.length === 0 && isWide(data)) {
      this.fail(
        new DataError(
          `${this.#terms.log.file}: is UTF-16, which is not read as it comes; judge reads it`,
        ),
      );
      return;
    }
    this.#keep(this.#cutter.cut(data));
  }

  event(text: string, isOther: boolean): void {
    this.#view.event(text);
    if (!isOther) return;
    this.#cutter.rest();
    this.#keep([Buffer.from("# another run follows")], true);
  }

  end(): void {
    this.stop("input_ended");
  }

  fail(error: Error): void {
    this.#error = error;
    this.stop("input_ended");
  }

  /** Ends the session; what came before is still taken. */
  stop(how: Ended): void {
    // The last lines of an input that has ended may still meet the goal, or be too many to wait for.
    if (this.#ended === null || this.#ended === "input_ended") this.#ended = how;
    this.#wake();
  }

  /** Works until something ends it; how it ended, and what the whole says. */
  async run(): Promise<{ ended: Ended; judged: JudgedLog }> {
    while (true) {
      this.#busyFrom ??= Date.now();
      const from = performance.now();
      while (this.#waiting.length > 0 && performance.now() - from < breath && !this.#isOver()) {
        const taken = this.#waiting.splice(0, 64);
        while (taken.length > 0 && !this.#isOver()) this.#take(taken.shift()!);
        if (taken.length > 0) this.#waiting.unshift(...taken);
      }
      if (this.#waiting.length === 0 && this.#sinceLook > 0) this.#show(null);
      this.#view.status(() => this.state());
      if (this.#isOver() || (this.#ended !== null && this.#waiting.length === 0)) break;
      // What came in the meantime is handed over now; nothing came where nothing is.
      await new Promise(setImmediate);
      await new Promise(setImmediate);
      this.#busyFrom = null;
      if (this.#waiting.length === 0 && this.#ended === null) {
        await new Promise<void>((resolve) => {
          this.#wake = resolve;
        });
      }
    }
    if (this.#error !== null) throw this.#error;
    const ended = this.#ended ?? "goal_met";
    return { ended, judged: this.#close(ended) };
  }

  /** What the status on a terminal is made of. */
  state(): WatchState {
    const { name, goal, of, isSealed } = this.#asked;
    return {
      name,
      goal,
      of,
      now: new Date(),
      running: this.#running,
      unclear: this.#unclear,
      spacing: this.#spacing,
      lastAt: this.#lastAt,
      recent: this.#recent,
      metAt: this.#metAt,
      isSealed,
      isLogged: this.#log !== null,
    };
  }

  /** Whether nothing more is to be looked at: told to stop by hand, or the goal is met and that is enough. */
  #isOver(): boolean {
    return this.#ended === "stopped" || this.#ended === "goal_met" || this.#error !== null;
  }

  /** Lines into the log, then in the queue. Of those that came while the program was at work each is as late as its place. */
  #keep(lines: readonly Buffer[], isComment = false): void {
    if (lines.length === 0) return;
    const now = Date.now();
    const from = this.#busyFrom ?? now;
    if (this.#busyFrom !== null) this.#busyFrom = now;
    const kept = lines.map((line, i) => {
      const at = new Date(from + ((now - from) * (i + 1)) / lines.length);
      const stamp = this.#log === null || isComment ? "" : `${at.toISOString()}\t`;
      return { bytes: Buffer.concat([Buffer.from(stamp), line, Buffer.from("\n")]), at };
    });
    try {
      this.#log?.add(Buffer.concat(kept.map(({ bytes }) => bytes)));
    } catch (error) {
      this.fail(error as Error);
      return;
    }
    this.#waiting.push(...kept);
    this.#lastAt = kept.at(-1)!.at;
    this.#wake();
  }

  #resume(before: Buffer): void {
    for (const byte of before) if (byte === 10) this.#line++;
    this.#reader.add(before);
    this.#shown = this.#line;
    this.#look();
  }

  #take({ bytes, at }: { bytes: Buffer; at: Date | null }): void {
    this.#line++;
    if (at !== null) this.#arrival.set(this.#line, at);
    this.#reader.add(bytes);
    this.#sinceLook++;
    if (this.#line >= this.#retryAt && this.#judgement.isDue(this.#looked + this.#sinceLook)) {
      this.#look();
    }
  }

  /** Judges what there is. */
  #look(): void {
    const made = this.#made();
    if (made === null) return;
    const readings = readingsToJudge(made, this.#terms.log);
    const running = this.#judgement.look(readings);
    this.#running = running;
    this.#looked = running.readings;
    this.#spacing = spacingOf(running.whole);
    this.#show(made);
    if (!running.isKnown || this.#metAt !== null) return;
    this.#metAt = running.readings;
    if (this.#asked.untilKnown) this.stop("goal_met");
    else this.#view.event(`goal met at reading ${this.#metAt}; going on narrows it`);
  }

  #made(): MadeReadings | null {
    this.#sinceLook = 0;
    try {
      const made = this.#reader.soFar();
      this.#unclear = "";
      return made;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.#retryAt = Math.ceil(1.05 * this.#line) + 1;
      this.#unclear = error.message;
      return null;
    }
  }

  /** Shows readings that were not shown yet; all are without a look at the whole where none was taken. */
  #show(looked: MadeReadings | null): void {
    const made = looked ?? this.#made();
    if (made === null) return;
    const { readings, quantity } = made;
    const { line = new Int32Array(0) } = readings;
    const fresh: number[] = [];
    for (let i = line.length - 1; i >= 0; i--) {
      if (line[i]! > this.#shown) fresh.unshift(i);
      else if (line[i]! > 0) break;
    }
    const notes = this.#news(made);
    fresh.forEach((i, k) => {
      const isLast = k === fresh.length - 1;
      const { value, rate } = valueAt(readings, i, quantity);
      this.#recent.push(rate);
      if (this.#recent.length > 2 * stripLength) this.#recent.splice(0, stripLength);
      const running = this.#running;
      const isSealed = this.#asked.isSealed && this.#metAt === null;
      this.#view.row({
        reading: i,
        line: line[i]!,
        at: this.#arrival.get(line[i]!) ?? null,
        value,
        quantity,
        rate,
        soFar:
          isLast && looked !== null && running !== null && !isSealed
            ? { ...running, remaining: this.#remaining() }
            : null,
        notes: isLast ? notes : [],
      });
    });
    if (fresh.length === 0) for (const note of notes) this.#view.event(note);
    this.#shown = Math.max(this.#shown, line.at(-1) ?? 0);
    this.#arrival.clear();
  }

  #remaining(): number | null {
    const { needed, readings } = this.#running!;
    if (this.#metAt !== null) return 0;
    return needed && Math.max(1, needed[0] - readings) * this.#spacing;
  }

  /** What is to be told and was not yet: notes of the log, outliers, what the model found. */
  #news({ notes, readings }: MadeReadings): string[] {
    const { line = [] } = readings;
    const outliers = this.#running?.outliers ?? [];
    const findings = this.#running?.whole?.findings ?? [];
    const news: [key: string, text: string][] = [
      ...notes.map((note): [string, string] => [`${note.code} ${note.line}`, note.message]),
      ...outliers.map((one): [string, string] => [
        `outlier ${one.reading}`,
        outliersInWords([one], line)[1]!.replace(/\s+/g, " ").trim(),
      ]),
      ...findings.map(({ code, reading, message }): [string, string] => [
        `${code} ${reading}`,
        `${reading === null ? "" : `reading ${reading} `}${message}`,
      ]),
    ];
    return news
      .filter(([key]) => !this.#told.has(key) && this.#told.add(key))
      .map(([, text]) => text);
  }

  #close(ended: Ended): JudgedLog {
    // What is in the log belongs to the whole, also where the goal was met before it.
    if (this.#log !== null || ended !== "goal_met") {
      for (const { bytes, at } of this.#waiting.splice(0)) {
        this.#line++;
        if (at !== null) this.#arrival.set(this.#line, at);
        this.#reader.add(bytes);
      }
    }
    const rest = ended === "input_ended" ? this.#cutter.rest() : Buffer.alloc(0);
    if (rest.length > 0) {
      const at = new Date();
      const stamp = this.#log === null ? "" : `${at.toISOString()}\t`;
      const bytes = Buffer.concat([Buffer.from(stamp), rest]);
      this.#log?.add(bytes);
      this.#reader.add(bytes);
      this.#arrival.set(++this.#line, at);
    }
    const made = this.#reader.end();
    // A last line that was taken is ended, so that it stays a reading where the log goes on.
    if (rest.length > 0 && made.readings.line?.at(-1) === this.#line)
      this.#log?.add(Buffer.from("\n"));
    const readings = readingsToJudge(made, this.#terms.log);
    const judged = withNotes(made, this.#terms, readings, this.#judgement.judge(readings));
    this.#show(made);
    return judged;
  }
}

/** From the start of a reading to that of the next; s. */
function spacingOf(whole: Judgement | null): number {
  const { duration = Number.NaN } = whole?.headline ?? {};
  return duration / ((whole?.readings ?? 0) + (whole?.missing ?? 0));
}

const isWide = (data: Buffer): boolean =>
  data.subarray(0, 4).includes(0) || /^(?:\xff\xfe|\xfe\xff)/.test(data.toString("latin1", 0, 2));
