import { defaultSettings, settingRules } from "../lesson/defaults.ts";
import { leftOut, lessonScenario } from "../lesson/lesson-scenario.ts";
import { lessonSteps, numberedSteps } from "../lesson/lesson-steps.ts";
import { fromAddress, type Settings, toAddress } from "../lesson/settings.ts";
import type { LessonData } from "../lesson-data.ts";
import type { Tasks } from "../protocol.ts";
import { classView } from "./class-view.ts";
import { downloadView } from "./download-view.ts";
import { button, element } from "./element.ts";
import { paragraph } from "./glossary.ts";
import { seedView } from "./seed-view.ts";
import { StepView } from "./step-view.ts";
import { trialView } from "./trial-view.ts";
import type { WorkerClient } from "./worker-client.ts";
import { worksheet } from "./worksheet.ts";

/**
 * Builds the page and keeps it in step with its address. Each step is an entry of the browser's history; what is set
 * and what was predicted stand in the address, so that a reload loses nothing and a link shows it all.
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
    const isStep = change.step !== undefined && change.step !== settings.step;
    settings = { ...settings, ...change };
    const address = toAddress(settings, defaults);
    const url = address === "" ? location.pathname + location.search : `#${address}`;
    if (isStep) history.pushState(null, "", url);
    else history.replaceState(null, "", url);
    update();
  };
  const views = steps.map(
    (step, i) =>
      new StepView(step, i < numberedSteps ? `${i + 1}. ` : "", client, set, () => settings),
  );
  const seed = seedView((text) => set({ seed: text }));
  const challenge = classView(scenario, client, set);
  const sheet = worksheet(data.title, steps);
  const note = element("p", { class: "hint", role: "status" });
  const links = steps.map((step) =>
    element("a", { href: "#", onclick: (event) => go(event, step.id) }, step.title),
  );
  const at = () => steps.findIndex(({ id }) => id === settings.step);
  const goBy = (by: number) => (event: Event) => go(event, steps[at() + by]!.id);
  const back = button("Step before", goBy(-1));
  const on = button("Next step", goBy(1), { class: "main" });

  function go(event: Event, id: string): void {
    event.preventDefault();
    set({ step: id });
    const view = views[at()]!;
    view.heading.focus();
    view.heading.scrollIntoView({ block: "nearest" });
  }

  function update(): void {
    const here = at();
    views.forEach((view, i) => {
      view.element.hidden = i !== here;
      view.update(settings);
    });
    links.forEach((link, i) => {
      link.href = `#${toAddress({ ...settings, step: steps[i]!.id }, defaults)}`;
      if (i === here) link.setAttribute("aria-current", "step");
      else link.removeAttribute("aria-current");
    });
    back.hidden = here === 0;
    on.hidden = here === steps.length - 1;
    seed.update(settings.seed);
    sheet.update(settings.seed);
    challenge.update(settings);
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

  const trial = trialView(client, set);
  const planned = views[steps.findIndex(({ id }) => id === "long")]!;
  planned.append(trial.element);
  planned.onResult = (answer, set_) => trial.update((answer as Tasks["plan"]["answer"]).ways, set_);

  main.replaceChildren(
    navigation(links),
    note,
    ...views.map((view) => view.element),
    element("div", { class: "pager" }, back, on),
    element(
      "section",
      { class: "tools", "aria-labelledby": "tools-heading" },
      element("h2", { id: "tools-heading" }, "This run"),
      paragraph(
        "The same seed gives the same run, here and on the command line. What is set and what you predicted stand in the address of the page: copy it to hand it on.",
      ),
      ...leftOutNote(leftOut(data.scenario)),
      seed.element,
      downloadView(client, () => settings.seed),
      element(
        "div",
        { class: "buttons" },
        button("Print the worksheet", () => print()),
        button("Forget my predictions", () => set({ said: "" })),
      ),
    ),
    challenge.element,
    sheet.element,
  );
  addEventListener("popstate", read);
  read();
}

function leftOutNote(parts: readonly string[]): readonly HTMLElement[] {
  if (parts.length === 0) return [];
  const list =
    parts.length < 2 ? parts[0]! : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
  const text = `Of this scenario the steps leave out ${list}, so that chance alone is seen. The readings to download have all of it.`;
  return [element("p", { class: "hint" }, text)];
}

function navigation(links: readonly HTMLElement[]): HTMLElement {
  const item = (link: HTMLElement) => element("li", {}, link);
  const beside = links.slice(numberedSteps).map(item);
  return element(
    "nav",
    { "aria-label": "Steps of the lesson" },
    element("ol", {}, ...links.slice(0, numberedSteps).map(item)),
    ...(beside.length > 0
      ? [element("p", {}, "Beside the steps"), element("ul", {}, ...beside)]
      : []),
  );
}
