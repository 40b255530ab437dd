import { quantityText } from "../../view/chart/index.ts";
import { scaleOf } from "../lesson/step.ts";
import type { Tasks } from "../protocol.ts";
import { drawn } from "./element.ts";

/** One tick as it is drawn: lanes above one another on one axis of time. */
export interface MotionPicture {
  readonly svg: SVGSVGElement;
  /** Time that the picture spans; s. */
  readonly span: number;
  /** Moments at which something happens: edge, half of the charge, step and stamp; share of the span. */
  readonly events: readonly number[];
  /** Shows the picture up to a share of its span. */
  readonly showTo: (share: number) => void;
  /** What is to be seen, in a sentence. */
  readonly words: string;
}

const [left, right, top, gap] = [86, 16, 8, 8];

/** Heights of the lanes, with a burst and without; px. */
const heights = { burst: [44, 56, 130, 56, 40], plain: [56, 130, 40] };

/**
 * Draws one tick of the chain.
 *
 * @param answer - what the engine met
 * @param tick - number of the tick; >= 1
 * @param width - of the picture; px
 */
export function motionPicture(
  answer: Tasks["motion"]["answer"],
  tick: number,
  width: number,
): MotionPicture {
  const { burst, late, period, burstsPerTick } = answer;
  const moments = burst === null ? wandering(late) : ticking(burst, burstsPerTick);
  const here = moments.at[tick - 1]!;
  const before = moments.at[tick - 2];
  const { from, to } = moments;
  const x = (t: number) => left + ((width - left - right) * (t - from)) / (to - from);
  const lanesOf = burst === null ? heights.plain : heights.burst;
  const lane = (i: number) => lanesOf[i]!;
  const row = (i: number) => top + lanesOf.slice(0, i).reduce((sum, one) => sum + one + gap, 0);
  const names =
    burst === null
      ? ["even grid", "edge", "stamp"]
      : ["edge", "tone burst", "charge", "tick", "stamp"];
  const last = names.length - 1;
  const clip = drawn("rect", { x: left - 4, y: 0, width: 0, height: row(last) });
  const head = drawn("path", { class: "motion-head" });
  const mark = drawn("path", {
    class: "motion-tick",
    d: `M${x(here)} ${row(last - 1) + 6}v${lane(last - 1) - 12}`,
  });
  const stamped = drawn(
    "text",
    { class: "motion-stamp", x: left + 12, y: row(last) + 28 },
    `${(tick * period + late[tick]!).toFixed(7)} s`,
  );
  const ghosts = moments.at.slice(0, tick - 1).map((t) =>
    drawn("path", {
      class: "motion-ghost",
      d: `M${x(t)} ${row(last - 1) + 14}v${lane(last - 1) - 28}`,
    }),
  );
  const lanes = names.map((name, i) =>
    drawn(
      "g",
      {},
      drawn("rect", {
        class: "motion-lane",
        x: left,
        y: row(i),
        width: width - left - right,
        height: lane(i),
        rx: 4,
      }),
      drawn(
        "text",
        { class: "motion-name", x: left - 10, y: row(i) + lane(i) / 2 + 4, "text-anchor": "end" },
        name,
      ),
    ),
  );
  const id = "motion-clip";
  const svg = drawn(
    "svg",
    {
      class: "motion",
      viewBox: `0 0 ${width} ${row(last) + lane(last) + 24}`,
      role: "img",
      "aria-label": "",
    },
    drawn("clipPath", { id }, clip),
    ...lanes,
    ...ghosts,
    drawn(
      "g",
      { "clip-path": `url(#${id})` },
      ...(burst === null
        ? [drawn("path", { class: "motion-grid", d: `M${x(0)} ${row(0)}V${row(1) + lane(1)}` })]
        : curves(burst, x, row, lane)),
    ),
    mark,
    stamped,
    head,
    ...axis(from, to, width < 560 ? 4 : 8, x, row(last) + lane(last)),
  );
  const size = (t: number) => quantityText(Math.abs(t), "s", 4);
  const what = burst === null ? "off the even grid" : "from edge to tick";
  const words =
    before === undefined
      ? `Tick ${tick}: ${size(here)} ${what}.`
      : `Tick ${tick}: ${size(here)} ${what}, ${size(before)} the time before.`;
  svg.setAttribute("aria-label", words);
  const shareOf = (t: number) => (t - from) / (to - from);
  const stampShare = Math.min(1, shareOf(here) + 0.06);
  return {
    svg,
    span: to - from,
    events: [
      shareOf(burst === null ? from : 0) + 0.01,
      shareOf(here) * 0.6 + 0.02,
      shareOf(here),
      stampShare,
    ],
    showTo(share) {
      const at = x(from + share * (to - from));
      clip.setAttribute("width", String(Math.max(0, at - left + 4)));
      head.setAttribute("d", `M${at} ${top}V${row(last) - gap}`);
      mark.style.visibility = share >= shareOf(here) ? "visible" : "hidden";
      stamped.style.visibility = share >= stampShare - 1e-9 ? "visible" : "hidden";
    },
    words,
  };
}

type Burst = NonNullable<Tasks["motion"]["answer"]["burst"]>;

/** When the bursts that make ticks made them, after their own edge. */
function ticking({ delays }: Burst, burstsPerTick: number) {
  const at = [...delays].filter((_, i) => (i + 1) % burstsPerTick === 0);
  const most = Math.max(...delays.filter(Number.isFinite));
  return { at, from: -0.06 * most, to: 1.25 * most };
}

/** Edges against an even grid of their own rate. */
function wandering(late: Float64Array) {
  const slope = late.at(-1)! / (late.length - 1);
  const at = [...late].map((value, i) => value - slope * i).slice(1);
  const most = Math.max(...at.map(Math.abs), 1e-12);
  return { at, from: -1.2 * most, to: 1.4 * most };
}

function curves(
  burst: Burst,
  x: (t: number) => number,
  row: (i: number) => number,
  lane: (i: number) => number,
): SVGElement[] {
  const { time, tone, voltage, threshold } = burst;
  const highest = Math.max(...tone);
  const charge = 1.15 * threshold;
  const path = (values: Float64Array, i: number, most: number) =>
    `M${[...values]
      .map(
        (value, k) =>
          `${x(time[k]!).toFixed(1)} ${(row(i) + lane(i) - 4 - ((lane(i) - 10) * Math.min(value, most)) / most).toFixed(1)}`,
      )
      .join("L")}`;
  const [low, high] = [row(0) + lane(0) - 8, row(0) + 10];
  return [
    drawn("path", { class: "motion-edge", d: `M${x(-1)} ${low}H${x(0)}V${high}H${x(10)}` }),
    drawn("path", { class: "motion-tone", d: path(tone, 1, highest) }),
    drawn("path", {
      class: "motion-threshold",
      d: `M0 ${row(2) + lane(2) - 4 - (lane(2) - 10) / 1.15}H9999`,
    }),
    drawn("path", { class: "motion-charge", d: path(voltage, 2, charge) }),
  ];
}

function axis(
  from: number,
  to: number,
  most: number,
  x: (t: number) => number,
  y: number,
): SVGElement[] {
  const step = scaleOf(-9, 1).find((one) => (to - from) / one <= most)!;
  const marks = [];
  for (let k = Math.ceil(from / step); k * step <= to; k++) {
    marks.push(
      drawn(
        "text",
        { class: "motion-name", x: x(k * step), y: y + 16, "text-anchor": "middle" },
        k === 0 ? "0" : quantityText(k * step, "s", 2),
      ),
    );
  }
  return marks;
}
