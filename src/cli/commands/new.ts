import { existsSync, writeFileSync } from "node:fs";
import type { Command } from "commander";
import {
  checkChain,
  factorOf,
  type LengthRange,
  lengthRange,
  parseAccuracy,
} from "../../planning/index.ts";
import { parseScenario, type Scenario, ScenarioError } from "../../scenario/index.ts";
import { jsonText } from "../../view/table/index.ts";
import { counted, halfWidthText, humanDuration } from "../../view/words/index.ts";
import { exitCode } from "../exit-code.ts";
import { FileError, UsageError } from "../failures.ts";
import { ask } from "../new/ask.ts";
import { answerOf, type DraftKey, draftKeys, unknownRanges } from "../new/draft.ts";
import { type Answers, questions } from "../new/questions.ts";
import { mattering, nested, writtenScenario } from "../new/written-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import type { CommonOptions } from "../options.ts";
import { print } from "../print.ts";
import { printCheck } from "../print-check.ts";
import { labelled, wrap, wroteLine } from "../style.ts";

type NewOptions = CommonOptions & { readonly force?: boolean } & Answers;

/** `tickwright new`: from what people know to a scenario. */
export function newScenarioCommand(): Command {
  const command = newCommand("new")
    .summary("write a scenario from answers to ten plain questions")
    .description(
      "Asks about ten plain questions on a terminal, or takes the same as options, and writes a scenario in which " +
        "every key has a comment. Then it shows what check and plan make of it, and which values to measure first.",
    )
    .argument("<file>", "the scenario to be written");
  for (const { name, asks } of questions) command.option(`--${name} <answer>`, asks);
  return command
    .option("--force", "replace a file that is there")
    .addHelpText(
      "after",
      examples(
        "tickwright new wall-clock.yaml --drive itself --within '1 s/day'",
        "tickwright new hall.yaml --tick 2 --tone 960,80,7 --receiver 1.8,20 --timebase oven",
      ),
    )
    .action(make);
}

/** The scenario that keys come to, with some of them set anew; null where they come to none. */
function scenarioOf(
  keys: readonly DraftKey[],
  values: Readonly<Record<string, number>> = {},
): Scenario | null {
  try {
    return parsedOf(keys, values).scenario;
  } catch (error) {
    if (error instanceof ScenarioError) return null;
    throw error;
  }
}

const parsedOf = (keys: readonly DraftKey[], values: Readonly<Record<string, number>>) =>
  parseScenario(
    JSON.stringify({
      length_s: 3600,
      ...nested(keys.map(({ path, value }) => ({ path, value: values[path] ?? value }))),
    }),
    "the answers",
  );

/** Why answers make no scenario, or null where they do. */
function faultOf(answers: Answers): string | null {
  try {
    parsedOf(draftKeys(answers), {});
    return null;
  } catch (error) {
    if (!(error instanceof ScenarioError)) throw error;
    const { path, message, hint } = error.complaints[0]!;
    return `${path} ${message}${hint === "" ? "" : `; ${hint}`}`;
  }
}

async function make(file: string, options: NewOptions): Promise<void> {
  if (existsSync(file) && options.force !== true) {
    throw new UsageError(`${file}: is there already; give another name, or --force to replace it`);
  }
  let answers: Answers = {};
  for (const { name, fault } of questions) {
    const text = options[name];
    if (text === undefined) continue;
    const wrong = fault(text) ?? faultOf({ ...answers, [name]: text });
    if (wrong !== null) throw new UsageError(`--${name} ${text}: ${wrong}`);
    answers = { ...answers, [name]: text };
  }
  if (process.stdin.isTTY && options.quiet !== true) {
    const asked = await ask(answers, faultOf);
    answers = asked.answers;
    if (!asked.isWhole) {
      const again = Object.entries(answers).map(([name, text]) => `--${name} '${text}'`);
      process.stderr.write(
        `\n${wrap(`Interrupted: nothing is written. To go on from here: tickwright new ${file} ${again.join(" ")}`)}\n`,
      );
      process.exitCode = exitCode.interrupted;
      return;
    }
  }
  const keys = draftKeys(answers);
  const within = parseAccuracy(answerOf("within", answers));
  const ranges = unknownRanges(keys);
  const plan = lengthRange((values) => scenarioOf(keys, values), ranges, within);
  const text = textOf(keys, within, plan);
  const parsed = parseScenario(text, file);
  try {
    writeFileSync(file, text);
  } catch (cause) {
    throw new FileError("write", file, cause);
  }
  if (options.json) print(jsonText(toJson(file, keys, within, plan)));
  else {
    const check = checkChain(parsed.scenario, parsed.warnings);
    print(
      `${printCheck(parsed.scenario, check, parsed.derived)}\n${planInWords(keys, within, plan)}\n${wroteLine(file)}\n`,
    );
  }
}

/** The whole file: as long as the plan, where there is one. */
function textOf(keys: readonly DraftKey[], within: number, plan: LengthRange): string {
  const { typical } = plan;
  const gate = keys.find(({ path }) => path === "counter.gate_s")!.value as number;
  const length = Number(
    (Number.isFinite(typical) ? Math.max(typical, 20 * gate) : 86400).toPrecision(3),
  );
  const own: DraftKey[] = [
    { path: "title", value: "A clock, as far as it is known", origin: "guess" },
    { path: "length_s", value: Math.ceil(length), origin: "follows" },
  ];
  const head = [
    `A scenario made from answers: to know the rate within ${halfWidthText(within)}.`,
    "Every key says what it means and its unit, where its value comes from, between which ends it typically lies and by which source, and how much it changes the length of the run that is planned.",
  ];
  return writtenScenario(head, [...own, ...keys], plan.effects);
}

const lengthText = (length: number) => (length === Infinity ? "never" : humanDuration(length));

function firstToMeasure(keys: readonly DraftKey[], plan: LengthRange) {
  return plan.effects
    .filter((effect) => factorOf(effect) >= 1.05)
    .slice(0, 3)
    .map((effect) => ({ effect, find: keys.find(({ path }) => path === effect.path)!.find ?? "" }));
}

function planInWords(keys: readonly DraftKey[], within: number, plan: LengthRange): string {
  const guesses = keys.filter(({ origin }) => origin === "guess").length;
  const { optimistic, typical, pessimistic } = plan;
  const answer =
    optimistic === Infinity
      ? "no run gets there, however the unknown values turn out"
      : `${lengthText(optimistic)} to ${lengthText(pessimistic)}, ${lengthText(typical)} by the typical values${plan.obstacle === "" ? "" : ` (at the worse ends: ${plan.obstacle})`}`;
  const first = firstToMeasure(keys, plan);
  const rows = first.map(({ effect, find }): [string, string] => [
    effect.path,
    `${mattering(effect)}: ${find}`,
  ]);
  return [
    wrap(
      `Plan, within ${halfWidthText(within)}: ${answer}. ${counted(guesses, "value")} not known: typical ones stand in their place, so this is an order of magnitude.`,
    ),
    ...(rows.length > 0
      ? ["Measure these first:", ...labelled(rows)]
      : ["None of the unknown values changes it."]),
  ].join("\n");
}

function toJson(file: string, keys: readonly DraftKey[], within: number, plan: LengthRange) {
  const finite = (length: number) => (length === Infinity ? null : length);
  return {
    schema_version: 1,
    file,
    within,
    length_s: finite(plan.typical),
    optimistic_s: finite(plan.optimistic),
    pessimistic_s: finite(plan.pessimistic),
    not_known: keys.filter(({ origin }) => origin === "guess").map(({ path }) => path),
    effects: plan.effects.map((effect) => ({
      path: effect.path,
      lengths_s: effect.lengths.map(finite),
      factor: Number.isFinite(factorOf(effect)) ? factorOf(effect) : null,
    })),
    measure_first: firstToMeasure(keys, plan).map(({ effect, find }) => ({
      path: effect.path,
      how: find,
    })),
  };
}
