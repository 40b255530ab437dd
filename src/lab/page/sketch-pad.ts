import { pow } from "../../numeric/index.ts";
import { powerOfTen } from "../../view/chart/index.ts";
import type { Question } from "../lesson/step.ts";
import { drawn, element } from "./element.ts";

/** Size of the pad, and the room for its axes; in units of the drawing. */
const [width, height, left, bottom] = [520, 330, 62, 40];

/** Decades that the curve can fall, and steps of a key in each. */
const [decades, keySteps] = [4, 8];

/**
 * A pad on logarithmic axes, on which a falling curve is drawn: with a pen or finger across it, or point by point
 * with the arrow keys.
 *
 * @param id - of the step
 * @param question - the places that the curve goes through, the first at 1
 */
export function sketchPad(id: string, { places, name }: Extract<Question, { kind: "sketch" }>) {
  const fall = places.map(() => 0);
  const most = Math.log(places.at(-1)!);
  const xAt = (i: number) => left + 14 + ((width - left - 28) * Math.log(places[i]!)) / most;
  const yAt = (value: number) => 12 + ((height - bottom - 12) * value) / decades;
  const line = drawn("path", { class: "sketch-line" });
  const share = (value: number) => Number(pow(10, -value).toPrecision(2));
  const words = (i: number) => `${name(places[i]!)}: ${share(fall[i]!)} of one`;
  const handles = places.slice(1).map((_, k) =>
    drawn("circle", {
      class: "handle",
      r: 7,
      cx: xAt(k + 1),
      tabindex: 0,
      role: "slider",
      "aria-label": `Scatter at ${name(places[k + 1]!)}`,
      "aria-valuemin": 0,
      "aria-valuemax": decades,
      onkeydown: (event) => press(event as KeyboardEvent, k + 1),
    }),
  );
  function put(i: number, value: number): void {
    fall[i] = Math.max(0, Math.min(decades, value));
    const handle = handles[i - 1]!;
    handle.setAttribute("cy", String(yAt(fall[i]!)));
    handle.setAttribute("aria-valuenow", fall[i]!.toFixed(2));
    handle.setAttribute("aria-valuetext", words(i));
    const points = fall.map((one, j) => `${xAt(j).toFixed(1)} ${yAt(one).toFixed(1)}`);
    line.setAttribute("d", `M${points.join("L")}`);
  }
  function press(event: KeyboardEvent, i: number): void {
    const by = { ArrowDown: 1, ArrowLeft: 1, ArrowUp: -1, ArrowRight: -1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    put(i, fall[i]! + by / keySteps);
  }
  let last: number | null = null;
  function draw(event: PointerEvent): void {
    const box = pad.getBoundingClientRect();
    const x = ((event.clientX - box.left) * width) / box.width;
    const y = ((event.clientY - box.top) * height) / box.height;
    const value = ((y - 12) * decades) / (height - bottom - 12);
    // A quick stroke passes places between two of its points.
    const from = last ?? x;
    for (let i = 1; i < places.length; i++) {
      const isPassed = xAt(i) >= Math.min(from, x) - 9 && xAt(i) <= Math.max(from, x) + 9;
      if (isPassed) put(i, value);
    }
    last = x;
  }
  const labels = [0, 1, 2, 3, 4].map((decade) =>
    drawn(
      "g",
      {},
      drawn("path", { class: "pad-grid", d: `M${left} ${yAt(decade)}H${width - 6}` }),
      drawn(
        "text",
        { x: left - 6, y: yAt(decade) + 4, "text-anchor": "end" },
        decade === 0 ? "1" : `1/${powerOfTen(decade)}`,
      ),
    ),
  );
  const ticks = [...places.keys()].map((i) =>
    drawn(
      "g",
      {},
      drawn("path", { class: "pad-grid", d: `M${xAt(i)} 12V${height - bottom}` }),
      drawn("text", { x: xAt(i), y: height - 16, "text-anchor": "middle" }, `${places[i]}`),
    ),
  );
  const pad = drawn(
    "svg",
    {
      class: "pad",
      viewBox: `0 0 ${width} ${height}`,
      role: "group",
      "aria-label": "Scatter against the gate, both logarithmic",
      onpointerdown: (event) => {
        last = null;
        pad.setPointerCapture((event as PointerEvent).pointerId);
        draw(event as PointerEvent);
      },
      onpointermove: (event) => {
        if ((event as PointerEvent).buttons > 0) draw(event as PointerEvent);
      },
    },
    ...labels,
    ...ticks,
    drawn(
      "text",
      { x: width / 2, y: height - 2, "text-anchor": "middle" },
      "gate, in its shortest",
    ),
    line,
    ...handles,
  );
  for (let i = 1; i < places.length; i++) put(i, 0);
  const hint = "Draw across the pad, or move each point with the arrow keys.";
  return {
    parts: [
      element("div", { class: "pad-frame", id: `predict-${id}` }, pad),
      element("p", { class: "hint" }, hint),
    ],
    said: () => fall.map((value) => `${share(value)}`).join("-"),
  };
}
