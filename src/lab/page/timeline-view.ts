import { estimatorMethods } from "../../judgement/index.ts";
import { estimatorNames } from "../../view/words/index.ts";
import { figure } from "../lesson/amounts.ts";
import { gateEstimates, touchWords } from "../lesson/gate-estimates.ts";
import { type Gate, gatesIn, gatesText, lastTick } from "../lesson/gates-text.ts";
import type { Settings } from "../lesson/settings.ts";
import type { Tasks } from "../protocol.ts";
import { button, element } from "./element.ts";
import { scrollingTable } from "./number-table.ts";
import { timelinePicture } from "./timeline-picture.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/** How late an outlier comes, over the scatter of an edge. */
const outlierSize = 12;

/**
 * A row of ticks with gates to be dragged, and what the three estimators make of them.
 *
 * @param client - asks the engine
 * @param set - takes a change of settings
 */
export function timelineView(client: WorkerClient, set: (change: Partial<Settings>) => void) {
  const stage = element("div", { class: "timeline-stage" });
  const live = element("p", { class: "result", role: "status" });
  const table = scrollingTable("The rate by three ways", [
    "Rate by",
    "Found (ms/day)",
    "Off the long run by (ms/day)",
    "Before (ms/day)",
  ]);
  const undone: Pick<Settings, "gates" | "outlier">[] = [];
  let settings: Settings | null = null;
  let answer: Tasks["ticks"]["answer"] | null = null;
  let before: Readonly<Record<string, number>> = {};
  let chosen = 0;

  const gates = () => gatesIn(settings!.gates)!;
  function change(to: Partial<Pick<Settings, "gates" | "outlier">>, isDragged = false): void {
    const { gates: old, outlier } = settings!;
    if ((to.gates ?? old) === old && (to.outlier ?? outlier) === outlier) return;
    if (!isDragged) undone.push({ gates: old, outlier });
    before = estimates();
    set(to);
  }
  const lateness = () => {
    const late = answer!.late.slice();
    const at = Number(settings!.outlier);
    if (at > 0) late[at]! += outlierSize * answer!.edgeRms;
    return late;
  };
  const estimates = () => gateEstimates(gates(), lateness(), answer!.period);

  /** Moves an end of a gate, as far as its neighbours let it. */
  function move(index: number, end: 0 | 1, tick: number, isDragged: boolean): void {
    const all = gates();
    const [from, to] = all[index]!;
    const [least, most] =
      end === 0 ? [all[index - 1]?.[1] ?? 0, to - 1] : [from + 1, all[index + 1]?.[0] ?? lastTick];
    const at = Math.max(least, Math.min(most, tick));
    const moved: Gate = end === 0 ? [at, to] : [from, at];
    change({ gates: gatesText(all.with(index, moved)) }, isDragged);
  }

  /** Begins each gate at the end of the one before, or a tick after it. */
  const packed = (hole: 0 | 1) => () => {
    const made: Gate[] = [];
    for (const [from, to] of gates()) {
      const start = made.length === 0 ? from : made.at(-1)![1] + hole;
      const end = start + (to - from);
      if (end <= lastTick) made.push([start, end]);
      else if (start < lastTick) made.push([start, lastTick]);
    }
    change({ gates: gatesText(made) });
  };

  function remove(): void {
    const all = gates();
    if (all.length === 1) return;
    const kept = all.filter((_, i) => i !== Math.min(chosen, all.length - 1));
    chosen = Math.min(chosen, kept.length - 1);
    change({ gates: gatesText(kept) });
  }

  function moveOutlier(): void {
    const ends = gates().flat();
    const inside = Math.floor((gates()[0]![0] + gates()[0]![1]) / 2);
    const places = [0, ...new Set([ends[1]!, inside, ends.at(-1)!])].filter(
      (tick, i) => i === 0 || tick > 0,
    );
    const at = places.indexOf(Number(settings!.outlier));
    change({ outlier: String(places[(at + 1) % places.length]!) });
  }

  function draw(): void {
    if (answer === null || settings === null) return;
    const focused = (document.activeElement as SVGElement | null)?.dataset?.end;
    stage.replaceChildren(
      timelinePicture(
        {
          gates: gates(),
          chosen,
          late: lateness(),
          period: answer.period,
          outlier: Number(settings.outlier),
          width: Math.max(300, Math.min(760, stage.clientWidth || 720)),
        },
        {
          choose(index) {
            chosen = index;
          },
          begin: () => undone.push({ gates: settings!.gates, outlier: settings!.outlier }),
          move,
        },
      ),
    );
    if (focused) stage.querySelector<SVGElement>(`[data-end="${focused}"]`)?.focus();
    const found = estimates();
    table.fill([
      ...estimatorMethods.map((method) => {
        const old = before[method];
        const isChanged = old !== undefined && old !== found[method];
        return [
          estimatorNames[method],
          figure(found[method], 3),
          figure(Math.abs(found[method] - answer!.longRun)),
          isChanged ? figure(old, 3) : "",
        ];
      }),
      ["truth in the long run", figure(answer.longRun, 3), "", ""],
    ]);
    const outlier = Number(settings.outlier) > 0 ? ` Tick ${settings.outlier} is an outlier.` : "";
    const words = touchWords(gates()) + outlier;
    if (live.textContent !== words) live.textContent = words;
  }

  new ResizeObserver(draw).observe(stage);
  const bar = element(
    "div",
    { class: "buttons" },
    button("Join", packed(0)),
    button("Pull apart", packed(1)),
    button("Delete gate", remove),
    button("Move outlier", moveOutlier),
    button("Undo", () => {
      // A drag that ended where it began left a state like this one.
      let last = undone.pop();
      while (last?.gates === settings!.gates && last.outlier === settings!.outlier) {
        last = undone.pop();
      }
      if (last === undefined) return;
      before = estimates();
      set(last);
    }),
  );
  return {
    element: element("div", { class: "play" }, stage, bar, live, table.element),
    async update(to: Settings): Promise<void> {
      settings = to;
      try {
        answer = await client.ask("ticks", { seed: to.seed, count: lastTick }, "timeline");
      } catch (error) {
        if (!(error instanceof Voided)) live.textContent = (error as Error).message;
        return;
      }
      draw();
    },
  };
}
