import { parseAccuracy } from "../../planning/index.ts";
import { humanDuration } from "../../view/words/index.ts";
import type { Settings } from "../lesson/settings.ts";
import { trialObstacle, trialWords } from "../lesson/steps/how-long.ts";
import type { PlannedWay } from "../protocol.ts";
import { field } from "./controls.ts";
import { element } from "./element.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/**
 * Below the plan: choose a way, run as long as foreseen, and see whether it held.
 *
 * @param client - asks the engine
 * @param set - takes a change of settings
 */
export function trialView(client: WorkerClient, set: (change: Partial<Settings>) => void) {
  const select = element("select", { id: "set-way", onchange: () => set({ way: select.value }) });
  const words = element("p", { class: "result", role: "status" });
  const run = element(
    "button",
    { type: "submit", class: "main" },
    "Run it and see whether it holds",
  );
  let ways: readonly PlannedWay[] = [];
  let settings: Settings | null = null;
  let tally = { held: 0, all: 0 };
  let about = "";

  async function ask(way: PlannedWay, { seed, within }: Settings): Promise<string> {
    const obstacle = trialObstacle(way);
    if (obstacle !== null) return obstacle;
    // Each trial has a seed of its own, the first that of the page.
    const own = tally.all === 0 ? seed : `${seed} trial ${tally.all + 1}`;
    const { method, readings } = way;
    const asked = about;
    const trial = await client.ask("trial", { seed: own, readings, method }, "trial");
    if (asked !== about) return "";
    const accuracy = parseAccuracy(within);
    const isHeld = Math.abs(trial.rate - trial.longRun) <= accuracy;
    tally = { held: tally.held + (isHeld ? 1 : 0), all: tally.all + 1 };
    return trialWords(trial, accuracy, tally);
  }

  async function submit(event: Event): Promise<void> {
    event.preventDefault();
    const way = ways.find(({ method }) => method === select.value);
    if (way === undefined || settings === null) return;
    try {
      words.textContent = await ask(way, settings);
    } catch (error) {
      if (error instanceof Voided) return;
      words.textContent = `This could not be run: ${(error as Error).message}`;
    }
  }

  return {
    element: element(
      "form",
      { class: "trial", onsubmit: (event) => void submit(event) },
      element("h3", {}, "Try it"),
      field("Way of measuring", "set-way", select, run),
      words,
    ),
    /** Takes a plan. */
    update(planned: readonly PlannedWay[], to: Settings): void {
      ways = planned;
      settings = to;
      select.replaceChildren(
        ...ways.map(({ method, description, longRun, limitedBy }) => {
          const length = limitedBy === null ? humanDuration(longRun) : "never";
          return element("option", { value: method }, `${description} (${length})`);
        }),
      );
      select.value = to.way;
      if (select.selectedIndex < 0) select.selectedIndex = 0;
      const now = `${to.seed} ${to.within} ${select.value}`;
      if (now === about) return;
      about = now;
      tally = { held: 0, all: 0 };
      words.textContent = "";
    },
  };
}
