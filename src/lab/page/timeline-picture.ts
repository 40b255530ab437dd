import { numberText } from "../../view/chart/index.ts";
import { gateNames } from "../lesson/gate-estimates.ts";
import { type Gate, lastTick } from "../lesson/gates-text.ts";
import { drawn } from "./element.ts";

/** What the picture shows. */
export interface TimelineInput {
  readonly gates: readonly Gate[];
  /** Index of the gate that buttons act on. */
  readonly chosen: number;
  /** How late each tick is; s. */
  readonly late: Float64Array;
  /** From tick to tick; s. */
  readonly period: number;
  /** The tick that is an outlier; 0 for none. */
  readonly outlier: number;
  /** px. */
  readonly width: number;
}

/** What is done in it. */
export interface TimelineActs {
  readonly choose: (index: number) => void;
  /** A drag begins. */
  readonly begin: () => void;
  readonly move: (index: number, end: 0 | 1, tick: number, isDragged: boolean) => void;
}

const [side, grid, bars, figures, height] = [22, 54, 112, 164, 202];

/** Share of the space between ticks that the largest lateness takes. */
const largest = 0.36;

/**
 * A row of ticks over an even grid, their lateness magnified, and gates with ends to be dragged.
 *
 * @param input - ticks and gates
 * @param acts - hears of what is done
 */
export function timelinePicture(input: TimelineInput, acts: TimelineActs): SVGSVGElement {
  const { gates, chosen, late, period, outlier, width } = input;
  const spacing = (width - 2 * side) / lastTick;
  const x = (tick: number) => side + tick * spacing;
  const most = Math.max(...late.map(Math.abs), 1e-15);
  const shift = (tick: number) => (late[tick]! * largest * spacing) / most;
  const used = new Set(gates.flat());
  const ticks = [...late.keys()].map((tick) =>
    drawn(
      "g",
      { class: used.has(tick) ? "tick used" : "tick" },
      drawn("path", { class: "tick-grid", d: `M${x(tick)} ${grid - 26}v52` }),
      drawn("path", {
        class: tick === outlier && tick > 0 ? "tick-mark outlier" : "tick-mark",
        d: `M${x(tick) + shift(tick)} ${grid - 20}v40`,
      }),
      drawn(
        "text",
        { x: x(tick), y: grid - 34, "text-anchor": "middle" },
        tick % (width < 560 ? 4 : 2) === 0 ? `${tick}` : "",
      ),
    ),
  );
  const svg = drawn("svg", {
    class: "timeline",
    viewBox: `0 0 ${width} ${height}`,
    role: "group",
    "aria-label": "Ticks and gates",
  });
  const bodies = gates.map(([from, to], i) =>
    drawn(
      "g",
      { class: i === chosen ? "gate chosen" : "gate", onpointerdown: () => acts.choose(i) },
      drawn("rect", {
        x: x(from) + 2,
        y: bars - 14,
        width: x(to) - x(from) - 4,
        height: 28,
        rx: 5,
      }),
      drawn(
        "text",
        { x: (x(from) + x(to)) / 2, y: bars + 5, "text-anchor": "middle" },
        gateNames[i]!,
      ),
    ),
  );
  // One drag at a time: the picture is drawn anew under it, so it is followed on the window.
  function drag(index: number, end: 0 | 1): void {
    acts.choose(index);
    acts.begin();
    const follow = (event: PointerEvent) => acts.move(index, end, tickOf(event), true);
    const tickOf = (event: PointerEvent) => {
      const box = document.querySelector(".timeline")!.getBoundingClientRect();
      return Math.round((((event.clientX - box.left) * width) / box.width - side) / spacing);
    };
    const stop = () => {
      removeEventListener("pointermove", follow);
      removeEventListener("pointerup", stop);
      removeEventListener("pointercancel", stop);
    };
    addEventListener("pointermove", follow);
    addEventListener("pointerup", stop);
    addEventListener("pointercancel", stop);
  }
  const steps: Readonly<Record<string, number>> = {
    ArrowLeft: -1,
    ArrowDown: -1,
    ArrowRight: 1,
    ArrowUp: 1,
  };
  const handles = gates.flatMap((gate, index) =>
    ([0, 1] as const).map((end) =>
      drawn(
        "g",
        {
          class: "handle-group",
          "data-end": `${index}-${end}`,
          tabindex: 0,
          role: "slider",
          "aria-label": `${end === 0 ? "Start" : "End"} of gate ${gateNames[index]}`,
          "aria-valuemin": 0,
          "aria-valuemax": lastTick,
          "aria-valuenow": gate[end],
          "aria-valuetext": `tick ${gate[end]}`,
          onfocus: () => acts.choose(index),
          onpointerdown: (event) => {
            event.preventDefault();
            (event.currentTarget as SVGElement).focus();
            drag(index, end);
          },
          onkeydown: (event) => {
            const by = steps[(event as KeyboardEvent).key];
            if (by === undefined) return;
            event.preventDefault();
            acts.move(index, end, gate[end] + by, false);
          },
        },
        drawn("rect", {
          class: "handle-reach",
          x: x(gate[end]) - (end === 0 ? 2 : 22),
          y: bars - 24,
          width: 24,
          height: 48,
        }),
        drawn("circle", {
          class: "handle",
          cx: x(gate[end]) + (end === 0 ? 7 : -7),
          cy: bars,
          r: 7,
        }),
        drawn("path", { class: "handle-line", d: `M${x(gate[end])} ${grid + 22}V${bars + 22}` }),
      ),
    ),
  );
  // Where ticks stand close every other figure stands lower.
  const lower = (i: number) => (width < 560 && i % 2 === 1 ? 14 : 0);
  const texts = [...used].map((tick, i) =>
    drawn(
      "text",
      { class: "lateness", x: x(tick), y: figures + lower(i), "text-anchor": "middle" },
      latenessText(late[tick]!, most),
    ),
  );
  svg.append(
    ...ticks,
    ...bodies,
    ...handles,
    ...texts,
    drawn(
      "text",
      { class: "hint-text", x: side, y: height - 6 },
      `Late by, in ${unitOf(most).name}; drawn ${numberText((largest * period) / most, 1)} times as large`,
    ),
  );
  return svg;
}

const unitOf = (most: number) =>
  most >= 1e-3
    ? { name: "ms", size: 1e-3 }
    : most >= 1e-6
      ? { name: "µs", size: 1e-6 }
      : { name: "ns", size: 1e-9 };

function latenessText(late: number, most: number): string {
  const { size } = unitOf(most);
  const value = late / size;
  const digits = most / size >= 100 ? 0 : 1;
  return (value > 0 ? "+" : "") + value.toFixed(digits).replace("-", "−");
}
