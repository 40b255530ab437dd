import type { Settings } from "../lesson/settings.ts";
import type { Step } from "../lesson/step.ts";
import { makeControl } from "./controls.ts";
import { element } from "./element.ts";
import { Figures } from "./figures.ts";
import { numberTable } from "./number-table.ts";
import { makePrediction, predictionWords } from "./prediction.ts";
import { readingDisplay } from "./reading-display.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/** A step of the lesson on the page: question, controls, and what comes out once it was asked for. */
export class StepView {
  readonly element: HTMLElement;
  readonly heading: HTMLElement;
  /** Called after every result. */
  onResult: ((answer: unknown, settings: Settings) => void) | null = null;
  private readonly step: Step;
  private readonly client: WorkerClient;
  private readonly prediction: ReturnType<typeof makePrediction>;
  private readonly controls: ReturnType<typeof makeControl>[];
  private readonly figures: Figures;
  private readonly reading = element("div");
  private readonly words = element("p", { class: "result", role: "status", "aria-live": "polite" });
  private readonly numbers = element("div");
  private readonly panel: HTMLElement;
  private readonly results: HTMLElement;
  private isRevealed = false;
  private settings: Settings;
  private asked = 0;

  /**
   * @param step - what is shown
   * @param number - its number in the lesson
   * @param client - asks the engine
   * @param settings - what is set
   * @param set - takes a change of settings
   */
  constructor(
    step: Step,
    number: string,
    client: WorkerClient,
    settings: Settings,
    set: (change: Partial<Settings>) => void,
  ) {
    this.step = step;
    this.client = client;
    this.settings = settings;
    this.figures = new Figures(`picture-${step.id}`);
    this.prediction = makePrediction(step.id, step.question, step.choices, () => this.reveal());
    this.controls = step.controls.map((control) => makeControl(control, set));
    this.heading = element(
      "h2",
      { id: `${step.id}-heading`, tabindex: -1 },
      `${number}${step.title}`,
    );
    this.panel = element(
      "div",
      { class: "controls", hidden: !step.controlsFirst },
      ...this.controls.map((control) => control.element),
    );
    this.results = element(
      "div",
      { class: "results", hidden: true },
      this.reading,
      this.figures.element,
      this.numbers,
    );
    this.element = element(
      "section",
      { class: "step", "aria-labelledby": `${step.id}-heading`, hidden: true },
      this.heading,
      element("p", { class: "intro" }, step.intro),
      ...(step.controlsFirst
        ? [this.panel, this.prediction.element]
        : [this.prediction.element, this.panel]),
      this.words,
      this.results,
    );
  }

  /** Puts something below the results. */
  append(more: HTMLElement): void {
    this.results.append(more);
  }

  /** Takes other settings, and shows what follows from them. */
  update(settings: Settings): void {
    this.settings = settings;
    for (const control of this.controls) control.update(settings);
    if (this.isRevealed && !this.element.hidden) void this.measure();
  }

  private reveal(): void {
    this.isRevealed = true;
    this.panel.hidden = false;
    this.results.hidden = false;
    void this.measure();
  }

  private async measure(): Promise<void> {
    const { step, settings, results } = this;
    const mine = ++this.asked;
    results.setAttribute("aria-busy", "true");
    try {
      const answer = await this.client.ask(step.task, step.ask(settings), "step");
      if (mine !== this.asked) return;
      const shown = step.show(answer, settings);
      this.reading.replaceChildren(...(shown.reading ? [readingDisplay(shown.reading)] : []));
      this.figures.show(shown.pictures);
      const verdict = predictionWords(step.choices, this.prediction.chosen(), shown.right);
      this.words.textContent = `${verdict} ${shown.words}`.trim();
      const isOpen = this.numbers.querySelector("details")?.open ?? shown.table.isOpen ?? false;
      this.numbers.replaceChildren(numberTable(shown.table, isOpen));
      this.onResult?.(answer, settings);
    } catch (error) {
      if (error instanceof Voided || mine !== this.asked) return;
      this.figures.show([]);
      this.words.textContent = `This could not be worked out: ${(error as Error).message}`;
    }
    results.setAttribute("aria-busy", "false");
  }
}
