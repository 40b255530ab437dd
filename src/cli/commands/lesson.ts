import { readFileSync } from "node:fs";
import type { Command } from "commander";
import { plainText } from "../../view/chart/index.ts";
import { lessonPage } from "../../view/report/index.ts";
import { jsonText } from "../../view/table/index.ts";
import { FileError } from "../failures.ts";
import { lessonTemplate } from "../installed.ts";
import { loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import { type ScenarioOptions, withScenarioOptions } from "../options.ts";
import { writeFile } from "../output-folder.ts";
import { print } from "../print.ts";
import { printWarnings } from "../print-warnings.ts";
import { chooseSeed, folderPart } from "../seed.ts";

interface LessonOptions extends ScenarioOptions {
  readonly out?: string;
  readonly force?: boolean;
}

/** `tickwright lesson`: one HTML file that teaches, with the engine in it. */
export function lessonCommand(): Command {
  const command = newCommand("lesson")
    .summary("make a page that teaches, with the scenario to play with")
    .description(
      "Makes one HTML file with a lesson about a scenario: eight steps, each with a question to predict, " +
        "something to play with and the result in words, a challenge for a class, and a worksheet. The engine runs in it, and gives the same readings as the " +
        "command line for the same seed. It opens from disk in any browser and uses no network.",
    );
  return withScenarioOptions(command)
    .option("--out <file>", "the page; - for stdout (default: out/lesson-<scenario>.html)")
    .option("--force", "replace the file given with --out")
    .addHelpText(
      "after",
      examples(
        "tickwright lesson observatory",
        "tickwright lesson school-laboratory --seed class-2b --out class-2b.html --force",
      ),
    )
    .action((where: string, options: LessonOptions) => lesson(where, options));
}

function lesson(where: string, options: LessonOptions): void {
  const { scenario, warnings, name } = loadScenario(where, options.set ?? []);
  if (!options.quiet) printWarnings(warnings);
  const seed = chooseSeed(options.seed, scenario.seed);
  const page = lessonPage(readTemplate(), { title: scenario.title, seed, scenario });
  if (options.out === "-") {
    print(page);
    return;
  }
  const path = options.out ?? `out/lesson-${folderPart(name)}.html`;
  const mayReplace = options.out === undefined || options.force === true;
  const written = writeFile(path, page, mayReplace);
  print(
    options.json
      ? jsonText({ schema_version: 1, scenario: name, seed, file: path, ...written, warnings })
      : plainText(`${path}: a lesson with the seed ${JSON.stringify(seed)}\n`),
  );
}

function readTemplate(): string {
  try {
    return readFileSync(lessonTemplate, "utf8");
  } catch (cause) {
    throw new FileError("read the page's template", lessonTemplate, cause);
  }
}
