import { defaultSettings, settingRules } from "../lesson/defaults.ts";
import { lessonScenario } from "../lesson/lesson-scenario.ts";
import { lessonSteps } from "../lesson/lesson-steps.ts";
import { fromAddress, type Settings, toAddress } from "../lesson/settings.ts";
import type { LessonData } from "../lesson-data.ts";
import type { Tasks } from "../protocol.ts";
import { downloadView } from "./download-view.ts";
import { element } from "./element.ts";
import { seedView } from "./seed-view.ts";
import { StepView } from "./step-view.ts";
import { TrialView } from "./trial-view.ts";
import type { WorkerClient } from "./worker-client.ts";

/** Steps that are numbered; those after them stand beside. */
const numbered = 5;

/**
 * Builds the page and keeps it in step with its address.
 *
 * @param data - what the lesson is about
 * @param client - asks the engine
 * @param main - element that the lesson is put into
 */
export function startApp(data: LessonData, client: WorkerClient, main: HTMLElement): void {
  const scenario = lessonScenario(data.scenario);
  const steps = lessonSteps({ scenario, title: data.title });
  const defaults = defaultSettings(data.seed);
  const rules = settingRules(steps);
  let settings = defaults;

  const set = (change: Partial<Settings>) => {
    settings = { ...settings, ...change };
    const address = toAddress(settings, defaults);
    history.replaceState(null, "", address === "" ? location.pathname : `#${address}`);
    update();
  };
  const views = steps.map(
    (step, i) => new StepView(step, i < numbered ? `${i + 1}. ` : "", client, settings, set),
  );
  const seed = seedView((text) => set({ seed: text }));
  const note = element("p", { class: "hint", role: "status" });
  const links = steps.map((step) =>
    element("a", { href: "#", onclick: (event) => go(event, step.id) }, step.title),
  );
  const goTo = (by: number) => (event: Event) => {
    const at = steps.findIndex(({ id }) => id === settings.step);
    go(event, steps[at + by]!.id);
  };
  const back = element("button", { type: "button", onclick: goTo(-1) }, "Step before");
  const on = element("button", { type: "button", class: "main", onclick: goTo(1) }, "Next step");

  function go(event: Event, id: string): void {
    event.preventDefault();
    set({ step: id });
    const view = views[steps.findIndex((step) => step.id === id)]!;
    view.heading.focus();
    view.heading.scrollIntoView({ block: "nearest" });
  }

  function update(): void {
    const at = steps.findIndex(({ id }) => id === settings.step);
    views.forEach((view, i) => {
      view.element.hidden = i !== at;
      view.update(settings);
    });
    links.forEach((link, i) => {
      link.href = `#${toAddress({ ...settings, step: steps[i]!.id }, defaults)}`;
      if (i === at) link.setAttribute("aria-current", "step");
      else link.removeAttribute("aria-current");
    });
    back.hidden = at === 0;
    on.hidden = at === steps.length - 1;
    seed.update(settings.seed);
  }

  function read(): void {
    const { settings: found, refused } = fromAddress(location.hash, defaults, rules);
    settings = found;
    note.textContent =
      refused.length === 0
        ? ""
        : `The address sets what this page does not know (${refused.join(", ").slice(0, 100)}); the usual setting is kept there.`;
    update();
  }

  const trial = new TrialView(client, set);
  const planned = views[steps.findIndex(({ id }) => id === "long")]!;
  planned.append(trial.element);
  planned.onResult = (answer, at) => trial.update((answer as Tasks["plan"]["answer"]).ways, at);

  main.replaceChildren(
    navigation(links),
    note,
    ...views.map((view) => view.element),
    element("div", { class: "pager" }, back, " ", on),
    element(
      "section",
      { class: "tools", "aria-labelledby": "tools-heading" },
      element("h2", { id: "tools-heading" }, "This run"),
      element(
        "p",
        {},
        "The same seed gives the same run, here and on the command line. What is set stands in the address of the page: copy it to hand it on.",
      ),
      seed.element,
      downloadView(client, () => settings.seed),
    ),
  );
  addEventListener("hashchange", read);
  read();
}

function navigation(links: readonly HTMLElement[]): HTMLElement {
  const item = (link: HTMLElement) => element("li", {}, link);
  const beside = links.slice(numbered);
  return element(
    "nav",
    { "aria-label": "Steps of the lesson" },
    element("ol", {}, ...links.slice(0, numbered).map(item)),
    ...(beside.length > 0
      ? [element("p", {}, "Beside the steps"), element("ul", {}, ...beside.map(item))]
      : []),
  );
}
