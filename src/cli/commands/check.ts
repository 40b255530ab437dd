import type { Command } from "commander";
import { checkChain } from "../../planning/index.ts";
import { checkToJson, jsonText } from "../../view/table/index.ts";
import { loadScenario } from "../load-scenario.ts";
import { examples, newCommand } from "../new-command.ts";
import { type ScenarioOptions, withScenarioOptions } from "../options.ts";
import { print } from "../print.ts";
import { printCheck } from "../print-check.ts";

/** `tickwright check`: validate a scenario and show what follows from it. */
export function checkCommand(): Command {
  const command = newCommand("check")
    .summary("validate a scenario and show what follows from it")
    .description(
      "Validates a scenario and shows what follows from it by theory: frequency set and its " +
        "error, loop bandwidth and timing noise, detection delay, drive margin, how often tone and bursts are " +
        "in step, digits to expect. Simulates nothing.",
    );
  return withScenarioOptions(command)
    .addHelpText(
      "after",
      examples(
        "tickwright check observatory",
        "tickwright check my-clock.yaml --set receiver.threshold_v=5 --json",
      ),
    )
    .action((where: string, options: ScenarioOptions) => {
      const loaded = loadScenario(where, options.set ?? []);
      const check = checkChain(loaded.scenario, loaded.warnings);
      print(
        options.json
          ? jsonText({ ...checkToJson(check), derived: loaded.derived })
          : printCheck(loaded.scenario, check, loaded.derived),
      );
    });
}
