import type { Command } from "commander";
import {
  type Judgement,
  type JudgeOptions,
  judgeReadings,
  sourceClasses,
} from "../judgement/index.ts";
import type { LogOptions, MadeReadings } from "../log/index.ts";
import { expectedRecord, type GateRace, unraced } from "../planning/index.ts";
import { type Note, noteOf, type Readings } from "../readings/index.ts";
import { findingsToJson, judgeToJson } from "../view/table/index.ts";
import { describedBy, describedReadings } from "./described-readings.ts";
import { DataError } from "./failures.ts";
import { loadScenario } from "./load-scenario.ts";
import { accuracyOption, choice, numberFrom } from "./options.ts";
import { type ReadingsFileOptions, readingsOptions } from "./readings-options.ts";
import { judgedWithoutDrive } from "./without-drive.ts";

/** What is said on the command line about a record to be judged. */
export interface JudgeLogOptions extends ReadingsFileOptions {
  readonly slipUnit?: number;
  readonly timebase?: number;
  readonly scenario?: string;
  readonly source?: string;
  readonly sourceFloor?: number;
  readonly sourceWhiteFm?: number;
}

/** Adds the options that say what is known beside the readings. */
export function withJudgeOptions(command: Command): Command {
  return command
    .option(
      "--slip-unit <cycles>",
      "smallest slip; 0.2 where a fifth of a tick can be lost",
      numberFrom(0, false),
    )
    .option(
      "--timebase <accuracy>",
      "how well the counter's time base is known, e.g. 1e-8",
      accuracyOption,
    )
    .option(
      "--scenario <file>",
      "what is known of the chain: period, gate, counter, time base, noise; says whether the record agrees",
    )
    .addOption(
      choice(
        "--source <class>",
        "what the clock runs on: bounds of its kind, from memory",
        Object.keys(sourceClasses),
      ),
    )
    .option(
      "--source-floor <deviation>",
      "bound on the source's flicker floor (Allan deviation), e.g. 1e-11",
      numberFrom(0, false),
    )
    .option(
      "--source-white-fm <deviation>",
      "bound on its white FM: Allan deviation at 1 s, e.g. 3e-11",
      numberFrom(0, false),
    );
}

/** How a log is read, and what is known of its record: from the command line, and from the descriptor beside it. */
export interface LogTerms {
  readonly log: LogOptions;
  readonly known: JudgeOptions & { readonly systematicBound: number };
  readonly notes: readonly Note[];
  /** What a scenario says of a gate that races with the edges. */
  readonly race: GateRace | null;
}

/** @throws UsageError, DataError where the options contradict each other or make no sense */
export function logTerms(path: string, options: JudgeLogOptions): LogTerms {
  const known = options.scenario === undefined ? null : loadScenario(options.scenario, []).scenario;
  const said = known === null ? describedReadings(path) : describedBy(known);
  const log = readingsOptions(path, options, said);
  const slipUnit = options.slipUnit ?? said?.slipUnit;
  if (slipUnit !== undefined && slipUnit > 1) {
    throw new DataError("--slip-unit: must not be above 1 cycle");
  }
  const { source, sourceFloor, sourceWhiteFm } = options;
  const expected = known && expectedRecord(known);
  return {
    log,
    race: said?.race ?? null,
    notes: typeof expected === "string" ? [noteOf("agreement", expected)] : [],
    known: {
      systematicBound: options.timebase ?? said?.systematicBound ?? 0,
      known: {
        ...(source === undefined ? {} : sourceClasses[source]),
        ...(sourceFloor === undefined ? {} : { floor: sourceFloor }),
        ...(sourceWhiteFm === undefined ? {} : { whiteFm: sourceWhiteFm }),
      },
      ...(expected === null || typeof expected === "string" ? {} : { expected }),
      ...(said?.cause === undefined ? {} : { systematicCause: said.cause }),
      ...(slipUnit === undefined ? {} : { slipUnit }),
    },
  };
}

/** A log that was judged. */
export interface JudgedLog {
  readonly judgement: Judgement;
  /** The record as it was judged, with all notes. */
  readonly read: MadeReadings;
}

/**
 * The readings of a log as they are judged: without the temperatures, unless those are asked for.
 *
 * @throws DataError where a coefficient is asked for that the temperatures do not tell
 */
export function readingsToJudge({ readings }: MadeReadings, { file }: LogOptions, asked = false) {
  const { temperature, ...plain } = readings;
  if (asked) requireChange(file, temperature);
  return asked ? readings : (plain as Readings);
}

/** Judges what was read of a log. */
export function judgeLog(
  parsed: MadeReadings,
  terms: LogTerms,
  asked: JudgeOptions & { readonly temperature?: boolean } = {},
): JudgedLog {
  const readings = readingsToJudge(parsed, terms.log, asked.temperature);
  return withNotes(parsed, terms, readings, judgeReadings(readings, { ...terms.known, ...asked }));
}

/** A judgement with what is to be told of its log. */
export function withNotes(
  parsed: MadeReadings,
  terms: LogTerms,
  readings: Readings,
  judgement: Judgement,
): JudgedLog {
  const notes = [...parsed.notes];
  if (readings.kind === "period" && readings.backToBack && !readings.start && !readings.stamps) {
    notes.push(
      noteOf(
        "gap",
        "no times tell whether a line is missing: a lost one is found only where its step stands out of the noise, and may else pass for rate",
      ),
    );
  }
  notes.push(...terms.notes);
  const estimates = judgement.estimates.map((estimate) => unraced(estimate, terms.race));
  return {
    judgement: judgedWithoutDrive({ ...judgement, estimates }, parsed.fallback),
    read: { ...parsed, readings, notes },
  };
}

/** A log that was judged, as other programs read it. */
export function judgedToJson({ judgement, read }: JudgedLog) {
  const fit = judgement.temperature && {
    coefficient_per_k: judgement.temperature.estimate,
    standard_uncertainty: (judgement.temperature.high - judgement.temperature.low) / 3.92,
    interval_95: [judgement.temperature.low, judgement.temperature.high],
    mean_c: judgement.temperature.mean,
  };
  return {
    ...judgeToJson(judgement),
    temperature: fit,
    read: read.detected,
    notes: [...read.notes, ...findingsToJson(judgement.findings, read.readings.line)],
  };
}

/** A coefficient needs temperatures that change. */
function requireChange(file: string, temperature: Float64Array | undefined): void {
  const known = temperature?.filter((t) => !Number.isNaN(t)) ?? new Float64Array(0);
  if (known.length < 10) {
    throw new DataError(
      `${file}: --temperature: at least 10 readings with a temperature are needed, got ${known.length}`,
    );
  }
  if (known.every((t) => Math.abs(t - known[0]!) < 1e-9)) {
    throw new DataError(`${file}: --temperature: temperature must change, got a constant`);
  }
}
