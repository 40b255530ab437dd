import type { Scenario } from "../../scenario/index.ts";
import { estimatorNames } from "../../view/words/index.ts";
import { figure, msPerDay } from "../lesson/amounts.ts";
import { claimOf, claimVerdict, classBudget, codeOf, runsIn } from "../lesson/class-code.ts";
import { gateWords } from "../lesson/gate-words.ts";
import type { Settings } from "../lesson/settings.ts";
import type { Tasks } from "../protocol.ts";
import { field, textInput } from "./controls.ts";
import { button, element } from "./element.ts";
import { scrollingTable } from "./number-table.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

const gates = ["1", "5", "10", "50", "100"];

/**
 * A challenge for a class: a rate that is hidden behind the teacher's word, so much time, and a code to hand in. Below
 * it the teacher reads the codes.
 *
 * @param scenario - as the lesson looks at it
 * @param client - asks the engine
 * @param set - takes a change of settings
 */
export function classView(
  scenario: Scenario,
  client: WorkerClient,
  set: (change: Partial<Settings>) => void,
) {
  let settings: Settings | null = null;
  const number = (id: string) =>
    element("input", { id, type: "number", step: "any", required: true });
  const word = textInput("set-word", () => set({ word: word.value.trim(), runs: "" }), {
    size: 12,
  });
  const name = textInput("set-name", () => set({ name: name.value.trim(), runs: "" }), {
    size: 12,
  });
  const gate = element(
    "select",
    { id: "class-gate" },
    ...gates.map((units) =>
      element("option", { value: units }, gateWords(scenario, Number(units))),
    ),
  );
  const count = element("input", {
    id: "class-count",
    type: "number",
    min: 5,
    max: classBudget,
    value: 20,
    required: true,
  });
  const state = element("p", { role: "status" });
  const runs = scrollingTable("Your runs", [
    "Run",
    ...Object.values(estimatorNames).map((one) => `${one} (ms/day)`),
    "Scatter (ms/day)",
  ]);
  const classTable = scrollingTable("The class", [
    "Name",
    "Claim (ms/day)",
    "Off by (ms/day)",
    "Verdict",
  ]);
  const rate = number("class-rate");
  const half = number("class-half");
  const code = element("output", { class: "code", for: "class-rate class-half" });
  const left = () =>
    runsIn(settings!.runs).reduce(
      (rest, [units, readings]) => rest - units * readings,
      classBudget,
    );

  function measure(event: Event): void {
    event.preventDefault();
    if (word.value.trim() === "" || name.value.trim() === "") {
      state.textContent = "Write the class's word and your name first.";
      return;
    }
    const cost = Number(gate.value) * Number(count.value);
    if (cost > left()) {
      state.textContent = `That takes ${gateWords(scenario, cost)}; ${gateWords(scenario, Math.max(1, left()))} are left.`;
      return;
    }
    const run = `${gate.value}x${count.value}`;
    set({ runs: settings!.runs === "" ? run : `${settings!.runs}.${run}` });
  }

  function show(found: Tasks["class"]["answer"]["found"]): void {
    runs.fill(
      found.map(({ rates, scatter }, i) => {
        const [units, readings] = runsIn(settings!.runs)[i]!;
        const figures = rates.map((one) => figure(one.rate, 4));
        return [`${readings} × ${gateWords(scenario, units)}`, ...figures, figure(scatter)];
      }),
    );
    state.textContent =
      left() > 0 ? `${gateWords(scenario, left())} are left.` : "No time is left.";
  }

  function claim(event: Event): void {
    event.preventDefault();
    const { word: ofClass, name: own } = settings!;
    code.textContent = codeOf({
      word: ofClass,
      name: own,
      rate: rate.valueAsNumber,
      half: Math.abs(half.valueAsNumber),
    });
  }

  const codes = element("textarea", { id: "class-codes", rows: 4, spellcheck: "false" });
  const marks = element("div", { role: "status" });
  async function mark(): Promise<void> {
    const lines = codes.value.split(/\s+/).filter((line) => line !== "");
    const claims = lines.map(claimOf);
    const truths = new Map<string, Tasks["truth"]["answer"]>();
    for (const one of claims) {
      if (one !== null && !truths.has(one.word)) {
        truths.set(one.word, await client.ask("truth", { word: one.word }, `truth ${one.word}`));
      }
    }
    const cells = claims.map((one, i) => {
      if (one === null) return [lines[i]!.slice(0, 12), "–", "–", "no whole code"];
      const { truth, best } = truths.get(one.word)!;
      const off = one.rate - truth * msPerDay;
      return [
        one.name,
        `${one.rate} ± ${one.half}`,
        figure(off / msPerDay, 3),
        claimVerdict(one, truth * msPerDay, best * msPerDay),
      ];
    });
    const said = (verdict: string) => cells.filter((row) => row[3] === verdict).length;
    classTable.fill(cells);
    const counts = `${said("sound")} sound, ${said("claimed too much")} claimed too much, ${said("claimed too little")} too little.`;
    marks.replaceChildren(element("p", {}, counts), classTable.element);
  }

  return {
    element: element(
      "details",
      { class: "tools" },
      element("summary", {}, element("strong", {}, "A challenge for the class")),
      element(
        "p",
        {},
        `The clock of this page, off by a rate that the class's word hides. Find the rate in the long run and say how well you know it. You may measure ${gateWords(scenario, classBudget)} in all, in as many runs as you like.`,
      ),
      field("The class's word", "set-word", word),
      field("Your name", "set-name", name),
      element(
        "form",
        { class: "control", onsubmit: measure },
        element("label", { for: "class-gate" }, "Gate"),
        gate,
        element("label", { for: "class-count" }, "Readings"),
        count,
        element("button", { type: "submit", class: "main" }, "Measure"),
      ),
      state,
      runs.element,
      element(
        "form",
        { class: "control", onsubmit: claim },
        element("label", { for: "class-rate" }, "I claim"),
        rate,
        element("label", { for: "class-half" }, "±"),
        half,
        " ms/day (95\u00a0%)",
        element("button", { type: "submit", class: "main" }, "Make my code"),
      ),
      code,
      element("h3", {}, "For the teacher"),
      field("Codes of the class, one a line", "class-codes", codes),
      element(
        "div",
        { class: "buttons" },
        button("See the class", () => void mark()),
      ),
      marks,
    ),
    update(to: Settings): void {
      const isSame =
        settings !== null &&
        ["word", "name", "runs"].every((key) => settings![key as "word"] === to[key as "word"]);
      settings = to;
      word.value = to.word;
      name.value = to.name;
      if (isSame || to.word === "" || to.name === "") return;
      const ask = { word: to.word, name: to.name, runs: runsIn(to.runs) };
      client.ask("class", ask, "class").then(
        ({ found }) => show(found),
        (error: Error) => {
          if (!(error instanceof Voided)) state.textContent = error.message;
        },
      );
    },
  };
}
