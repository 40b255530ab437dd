import { parseAccuracy } from "../../planning/index.ts";
import { humanDuration } from "../../view/words/index.ts";
import type { Settings } from "../lesson/settings.ts";
import { trialObstacle, trialWords } from "../lesson/steps/how-long.ts";
import type { PlannedWay, Tasks } from "../protocol.ts";
import { field } from "./controls.ts";
import { element } from "./element.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/** Below the plan: choose a way, run as long as foreseen, and see whether it held. */
export class TrialView {
  readonly element: HTMLElement;
  private readonly client: WorkerClient;
  private readonly select: HTMLSelectElement;
  private readonly button = element(
    "button",
    { type: "submit", class: "main" },
    "Run it and see whether it holds",
  );
  private readonly words = element("p", { class: "result", role: "status", "aria-live": "polite" });
  private ways: readonly PlannedWay[] = [];
  private settings: Settings | null = null;
  private tally = { held: 0, all: 0 };
  private about = "";

  /**
   * @param client - asks the engine
   * @param set - takes a change of settings
   */
  constructor(client: WorkerClient, set: (change: Partial<Settings>) => void) {
    this.client = client;
    this.select = element("select", {
      id: "set-way",
      onchange: () => set({ way: this.select.value }),
    });
    this.element = element(
      "form",
      {
        class: "trial",
        onsubmit: (event) => {
          event.preventDefault();
          void this.run();
        },
      },
      element("h3", {}, "Try it"),
      field("Way of measuring", "set-way", this.select, this.button),
      this.words,
    );
  }

  /** Takes a plan. */
  update(ways: readonly PlannedWay[], settings: Settings): void {
    this.ways = ways;
    this.settings = settings;
    this.select.replaceChildren(
      ...ways.map((way) => {
        const length = way.limitedBy === null ? humanDuration(way.longRun) : "never";
        return element("option", { value: way.method }, `${way.description} (${length})`);
      }),
    );
    this.select.value = settings.way;
    if (this.select.selectedIndex < 0) this.select.selectedIndex = 0;
    const about = `${settings.seed} ${settings.within} ${this.select.value}`;
    if (about === this.about) return;
    this.about = about;
    this.tally = { held: 0, all: 0 };
    this.words.textContent = "";
  }

  private async run(): Promise<void> {
    const { settings, about } = this;
    const way = this.ways.find(({ method }) => method === this.select.value);
    if (way === undefined || settings === null) return;
    const obstacle = trialObstacle(way);
    if (obstacle !== null) {
      this.words.textContent = obstacle;
      return;
    }
    const within = parseAccuracy(settings.within);
    // Each trial has a seed of its own, the first that of the page.
    const number = this.tally.all + 1;
    const seed = number === 1 ? settings.seed : `${settings.seed} trial ${number}`;
    this.element.setAttribute("aria-busy", "true");
    try {
      const trial: Tasks["trial"]["answer"] = await this.client.ask(
        "trial",
        { seed, readings: way.readings, method: way.method },
        "trial",
      );
      if (about !== this.about) return;
      this.tally.all++;
      if (Math.abs(trial.rate - trial.longRun) <= within) this.tally.held++;
      this.words.textContent = trialWords(trial, within, this.tally);
    } catch (error) {
      if (error instanceof Voided) return;
      this.words.textContent = `This could not be run: ${(error as Error).message}`;
    } finally {
      this.element.setAttribute("aria-busy", "false");
    }
  }
}
