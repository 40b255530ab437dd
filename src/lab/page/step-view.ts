import { type Settings, saidIn, withSaid } from "../lesson/settings.ts";
import type { Step } from "../lesson/step.ts";
import { makeControl } from "./controls.ts";
import { button, element } from "./element.ts";
import { Figures } from "./figures.ts";
import { paragraph } from "./glossary.ts";
import { motionView } from "./motion-view.ts";
import { numberTable } from "./number-table.ts";
import { questionForm } from "./question-form.ts";
import { readingDisplay } from "./reading-display.ts";
import { timelineView } from "./timeline-view.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/** A step of the lesson on the page: question, controls, and what comes out once it was asked for. */
export class StepView {
  readonly element: HTMLElement;
  readonly heading: HTMLElement;
  /** Called after every result. */
  onResult: ((answer: unknown, settings: Settings) => void) | null = null;
  private readonly step: Step;
  private readonly client: WorkerClient;
  private readonly form: HTMLElement;
  private readonly again: HTMLElement;
  private readonly controls: ReturnType<typeof makeControl>[];
  private readonly play: ReturnType<typeof motionView | typeof timelineView> | null;
  private readonly figures: Figures;
  private readonly reading = element("div", { class: "readings" });
  private readonly verdict = element("p", { class: "verdict", role: "status" });
  private readonly words = element("p", { class: "result", role: "status" });
  private readonly numbers = element("div", { class: "numbers-place" });
  private readonly panel: HTMLElement;
  private readonly results: HTMLElement;
  private asked = 0;

  /**
   * @param step - what is shown
   * @param number - its number in the lesson
   * @param client - asks the engine
   * @param set - takes a change of settings
   * @param settings - what is set
   */
  constructor(
    step: Step,
    number: string,
    client: WorkerClient,
    set: (change: Partial<Settings>) => void,
    settings: () => Settings,
  ) {
    this.step = step;
    this.client = client;
    this.figures = new Figures(`picture-${step.id}`);
    const say = (said: string) => {
      set({ said: withSaid(settings().said, step.id, said) });
      // The form is gone, and with it what had the focus.
      this.again.focus();
    };
    this.form = questionForm(step.id, step.question, say);
    this.again = button(
      "Predict again",
      () => {
        this.form.hidden = false;
        this.form.querySelector("input")?.focus();
      },
      { class: "quiet", hidden: true },
    );
    this.controls = step.controls.map((control) => makeControl(control, set));
    this.play =
      step.play === "motion"
        ? motionView(client)
        : step.play === "timeline"
          ? timelineView(client, set)
          : null;
    const id = `${step.id}-heading`;
    this.heading = element("h2", { id, tabindex: -1 }, `${number}${step.title}`);
    const controls = this.controls.map((control) => control.element);
    this.panel = element("div", { class: "controls" }, ...controls);
    this.results = element("div", { class: "results" }, this.reading, this.figures.element);
    this.element = element(
      "section",
      { class: `step${step.play ? " plays" : ""}`, "aria-labelledby": id, hidden: true },
      this.heading,
      element(
        "div",
        { class: "asks" },
        paragraph(step.intro, { class: "intro" }),
        ...(step.controlsFirst ? [this.panel, this.form] : [this.form, this.panel]),
        this.verdict,
        this.again,
      ),
      element("div", { class: "shows" }, ...(this.play ? [this.play.element] : []), this.results),
      this.words,
      this.numbers,
    );
  }

  /** Puts something below the results. */
  append(more: HTMLElement): void {
    this.element.append(more);
  }

  /** Takes other settings, and shows what follows from them. */
  update(settings: Settings): void {
    for (const control of this.controls) control.update(settings);
    if (this.element.hidden) return;
    void this.play?.update(settings);
    const said = saidIn(settings.said, this.step.id);
    const isRevealed = said !== null;
    this.element.classList.toggle("asked", !isRevealed);
    this.form.hidden = isRevealed;
    this.again.hidden = !isRevealed;
    this.panel.hidden = this.controls.length === 0 || !(isRevealed || this.step.controlsFirst);
    this.results.hidden = !isRevealed;
    this.words.hidden = !isRevealed;
    this.verdict.hidden = !isRevealed;
    this.numbers.hidden = !isRevealed;
    if (isRevealed) void this.measure(settings, said);
  }

  private async measure(settings: Settings, said: string): Promise<void> {
    const { step, results } = this;
    const mine = ++this.asked;
    results.setAttribute("aria-busy", "true");
    const tell = (share: number) => {
      if (mine === this.asked) results.style.setProperty("--done", `${Math.round(100 * share)}%`);
    };
    try {
      const answer = await this.client.ask(step.task, step.ask(settings), "step", tell);
      if (mine !== this.asked) return;
      const shown = step.show(answer, settings);
      this.reading.replaceChildren(...(shown.reading ? [readingDisplay(shown.reading)] : []));
      this.figures.show(shown.pictures);
      const grade = said === "" || shown.grade === null ? null : shown.grade(said);
      this.verdict.classList.toggle("right", grade?.isRight ?? false);
      put(this.verdict, grade?.words ?? "");
      put(this.words, shown.words);
      const isOpen = this.numbers.querySelector("details")?.open ?? shown.table.isOpen ?? false;
      this.numbers.replaceChildren(numberTable(shown.table, isOpen));
      this.onResult?.(answer, settings);
    } catch (error) {
      if (error instanceof Voided || mine !== this.asked) return;
      this.figures.show([]);
      put(this.words, `This could not be worked out: ${(error as Error).message}`);
    }
    results.setAttribute("aria-busy", "false");
    results.style.removeProperty("--done");
  }
}

/** Changes a text only where it differs, so that a live region says nothing twice. */
function put(place: HTMLElement, text: string): void {
  if (place.textContent !== text) place.textContent = text;
}
