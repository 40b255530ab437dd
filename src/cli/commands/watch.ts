import type { Command } from "commander";
import { jsonText } from "../../view/table/index.ts";
import { halfWidthText } from "../../view/words/index.ts";
import { exitCode } from "../exit-code.ts";
import { UsageError } from "../failures.ts";
import { isInterrupted, watchSignals } from "../interrupt.ts";
import {
  type JudgedLog,
  type JudgeLogOptions,
  judgedToJson,
  logTerms,
  withJudgeOptions,
} from "../judge-log.ts";
import { examples, newCommand } from "../new-command.ts";
import { accuracyOption, type CommonOptions, choice } from "../options.ts";
import { print } from "../print.ts";
import { printJudgement } from "../print-judgement.ts";
import { withReadingsOptions } from "../readings-options.ts";
import { wrap } from "../style.ts";
import { follow, openSource } from "../watch/follow.ts";
import { WatchLog } from "../watch/watch-log.ts";
import { clockTime, csvHead, csvRow, jsonRow, textRow } from "../watch/watch-rows.ts";
import { type Ended, WatchSession, type WatchView } from "../watch/watch-session.ts";
import { rateAsked, type WatchState, watchStatus } from "../watch/watch-status.ts";

interface WatchCommandOptions extends JudgeLogOptions, CommonOptions {
  readonly within?: number;
  readonly of: "run" | "day" | "long";
  readonly untilKnown?: boolean;
  readonly hideRate?: boolean;
  readonly log?: string;
}

/** `tickwright watch`: judge readings while they come in. */
export function watchCommand(): Command {
  const command = newCommand("watch")
    .summary("judge readings while they come in, until the rate is known")
    .description(
      "Follows a serial line, standard input or a file that grows, and tells with every reading how well the rate is " +
        "known and when it will do. On a terminal the status is drawn in place; elsewhere a line a reading comes as " +
        "CSV, or as JSON. Ctrl-C stops and judges. A serial line must be set before: stty -F /dev/ttyUSB0 9600 raw -echo.",
    );
  withReadingsOptions(command, "a device, a file that grows, or - for stdin");
  return withJudgeOptions(command)
    .option(
      "--within <accuracy>",
      'half-width wanted at 95 %: 1e-9, 0.5ppm, "2 ms/day"',
      accuracyOption,
    )
    .addOption(
      choice("--of <rate>", "which rate it is about: a steady one, or that of the run", [
        "run",
        "day",
        "long",
      ]).default("long"),
    )
    .option("--until-known", "end when the rate is known to --within; not before 30 readings")
    .option("--hide-rate", "show no rate until then, only how well it is known")
    .option(
      "--log <file>",
      "keep every line with the time when it came; goes on where the file ended",
    )
    .addHelpText(
      "after",
      examples(
        "tickwright run school-laboratory --out - | tickwright watch - --nominal-period 1",
        'tickwright watch - --nominal-period 1 --within "1 s/day" --log bench.log < my-counter.txt',
        "tickwright judge bench.log --nominal-period 1",
      ),
    )
    .action(async (path: string, options: WatchCommandOptions) => watch(path, options));
}

async function watch(path: string, options: WatchCommandOptions): Promise<void> {
  const { of, log: logPath } = options;
  const goal = options.within ?? null;
  if (goal === null && (options.untilKnown || options.hideRate)) {
    throw new UsageError(
      '--until-known and --hide-rate need a goal: give --within, such as "2 ms/day"',
    );
  }
  const terms = logTerms(path, options);
  const bound = terms.known.systematicBound;
  if (goal !== null && !(goal > bound)) {
    throw new UsageError(
      `--within ${halfWidthText(goal)}: the time base alone may be off by ${halfWidthText(bound)}, which no waiting narrows; ask for more than that, or measure the time base better and say so with --timebase`,
    );
  }
  const source = openSource(path, logPath !== undefined);
  const log = logPath === undefined ? null : new WatchLog(logPath);
  const changed = log === null || goal === null ? "" : writeGoal(log, goal, of);
  watchSignals();
  const view = viewOf(options);
  if (changed !== "") view.event(changed);
  const asked = {
    name: logPath ?? terms.log.file,
    goal,
    of,
    untilKnown: options.untilKnown === true,
    isSealed: options.hideRate === true,
  };
  const session = new WatchSession(terms, asked, log, view);
  const stop = follow(source, session);
  const timer = setInterval(() => {
    if (isInterrupted()) session.stop("stopped");
    view.status(() => session.state());
  }, 100);
  try {
    const { ended, judged } = await session.run();
    view.end();
    tellEnd(ended, session.metAt, judged, options);
    if (ended === "stopped") process.exitCode = exitCode.interrupted;
    else if (options.untilKnown && session.metAt === null) process.exitCode = exitCode.differs;
  } finally {
    clearInterval(timer);
    view.end();
    stop();
    log?.close();
  }
}

const goalLine = /^# (\S+) goal (\S+) (\S+)$/gm;

/** Writes the goal down before the first reading; what is to be told where it was another one before. */
function writeGoal(log: WatchLog, goal: number, of: WatchCommandOptions["of"]): string {
  const before = [...log.before.toString("latin1").matchAll(goalLine)].at(-1);
  // No word of a new run: it would part the record.
  const now = `${goal} ${of === "run" ? "over_run" : "steady"}`;
  if (before !== undefined && `${before[2]} ${before[3]}` === now) return "";
  log.add(Buffer.from(`# ${new Date().toISOString()} goal ${now}\n`));
  if (log.before.length === 0) return "";
  return `the goal is changed after the first reading, from ${before === undefined ? "none" : `${halfWidthText(Number(before[2]))}, ${before[3]!.replace("_", " ")}`}: what it stops at is no longer set beforehand`;
}

interface ShownView extends WatchView {
  end(): void;
}

const isScreen = ({ json }: WatchCommandOptions): boolean =>
  !json && process.stdout.isTTY === true && process.env.TERM !== "dumb";

function viewOf(options: WatchCommandOptions): ShownView {
  if (isScreen(options)) return screenView(options.quiet === true);
  const rowText = options.json ? jsonRow : csvRow;
  let head = options.json ? "" : csvHead;
  let rows = "";
  const flush = () => {
    if (rows === "") return;
    print(head + rows);
    head = "";
    rows = "";
  };
  return {
    row: (row) => {
      rows += rowText(row);
    },
    event: (text) => {
      if (!options.quiet) process.stderr.write(`${wrap(text)}\n`);
    },
    status: flush,
    end: flush,
  };
}

/** Least time between two drawings; ms. */
const frame = 250;

/** Lines that scroll, and below them a status that is drawn in its place. */
function screenView(isQuiet: boolean): ShownView {
  let drawn = 0;
  let last = 0;
  let text = "";
  let isOver = false;
  const erase = () => (drawn > 0 ? `\x1b[${drawn}A\r\x1b[J` : "");
  const line = (at: Date, said: string) => {
    text += `${wrap(`${clockTime(at)}  ${said}`, 80, "          ")}\n`;
  };
  const draw = (state: (() => WatchState) | null) => {
    const status = state === null || isQuiet ? [] : watchStatus(state());
    const width = process.stdout.columns || 80;
    const shown = status.slice(0, (process.stdout.rows || 24) - 1).map((l) => l.slice(0, width));
    print(`${erase()}${text}${shown.map((l) => `${l}\n`).join("")}`);
    drawn = shown.length;
    text = "";
  };
  return {
    row(row) {
      text += `${textRow(row)}\n`;
      for (const note of row.notes) line(new Date(), note);
    },
    event: (said) => line(new Date(), said),
    status(state) {
      if (Date.now() - last < frame) return;
      last = Date.now();
      draw(state);
    },
    end() {
      if (!isOver) draw(null);
      isOver = true;
    },
  };
}

const endings: Readonly<Record<Ended, string>> = {
  goal_met: "The goal is met",
  stopped: "Stopped by hand",
  input_ended: "The input has ended",
};

function tellEnd(
  ended: Ended,
  metAt: number | null,
  judged: JudgedLog,
  options: WatchCommandOptions,
): void {
  const goal = options.within ?? null;
  if (options.json) {
    const whole = jsonText({
      ended,
      goal: goal === null ? null : { within: goal, of: options.of, met_at_reading: metAt },
      ...judgedToJson(judged),
    });
    print(`${JSON.stringify(JSON.parse(whole))}\n`);
    return;
  }
  const aim =
    goal === null
      ? ""
      : ` goal ${halfWidthText(goal)} of the ${rateAsked(options.of)}, set beforehand: ${metAt === null ? "not met" : `met at reading ${metAt}`};`;
  const log = options.log === undefined ? "" : ` every line is in ${options.log};`;
  const how = wrap(
    `${endings[ended]} after ${judged.judgement.readings} readings;${aim}${log}`.replace(/;$/, "."),
  );
  const text = `${how}\n\n${printJudgement(judged.judgement, judged.read, goal)}`;
  if (isScreen(options)) print(`${metAt === null ? "" : "\x07"}\n${text}`);
  else if (!options.quiet) process.stderr.write(text);
}
