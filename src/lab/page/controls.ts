import { isAccuracy } from "../lesson/defaults.ts";
import type { Settings } from "../lesson/settings.ts";
import type { Control } from "../lesson/step.ts";
import { button, element } from "./element.ts";

/** A control on the page. */
export interface MadeControl {
  readonly element: HTMLElement;
  /** Shows what is set. */
  readonly update: (settings: Settings) => void;
}

type Setter = (change: Partial<Settings>) => void;
type Kind<K extends Control["kind"]> = Extract<Control, { kind: K }>;

/**
 * Makes a control of native elements.
 *
 * @param control - what it sets, and how
 * @param set - takes a change
 */
export function makeControl(control: Control, set: Setter): MadeControl {
  switch (control.kind) {
    case "stepper":
      return stepper(control, set);
    case "range":
      return range(control, set);
    case "select":
      return select(control, set);
    case "stages":
      return stages(control, set);
    case "accuracy":
      return accuracy(control, set);
  }
}

/** A label and what it belongs to, in a row. */
export const field = (label: string, id: string, ...parts: readonly (Node | string)[]) =>
  element("div", { class: "control" }, element("label", { for: id }, label), ...parts);

function stepper({ key, label, least, most, back, on }: Kind<"stepper">, set: Setter): MadeControl {
  const id = `set-${key}`;
  const put = (value: number) => {
    // Not a number where the field was emptied.
    if (value >= least && value <= most) set({ [key]: String(Math.round(value)) });
    else input.reportValidity();
  };
  const input = element("input", {
    id,
    type: "number",
    min: least,
    max: most,
    step: 1,
    inputmode: "numeric",
    required: true,
    onchange: () => put(input.valueAsNumber),
  });
  const previous = button(back, () => put(Number(input.value) - 1));
  const next = button(on, () => put(Number(input.value) + 1));
  return {
    element: field(label, id, input, previous, next),
    update(settings) {
      input.value = settings[key];
      // Not `disabled`: the button that has the focus must keep it.
      previous.setAttribute("aria-disabled", String(Number(settings[key]) <= least));
      next.setAttribute("aria-disabled", String(Number(settings[key]) >= most));
    },
  };
}

/**
 * A slider over some values, with what is chosen in words beside it.
 *
 * @param id - of the input
 * @param count - of values
 * @param words - says the value of an index
 * @param put - takes the index chosen
 */
export function slider(
  id: string,
  count: number,
  words: (index: number) => string,
  put: (index: number) => void,
) {
  const shown = element("output", { for: id });
  const input = element("input", {
    id,
    type: "range",
    min: 0,
    max: count - 1,
    step: 1,
    oninput: () => {
      show(Number(input.value));
      put(Number(input.value));
    },
  });
  const show = (index: number) => {
    input.value = String(index);
    input.setAttribute("aria-valuetext", words(index));
    shown.textContent = words(index);
  };
  return { parts: [input, shown] as const, show };
}

function range({ key, label, values, text }: Kind<"range">, set: Setter): MadeControl {
  const id = `set-${key}`;
  const { parts, show } = slider(
    id,
    values.length,
    (i) => text(values[i]!),
    (i) => set({ [key]: values[i]! }),
  );
  return {
    element: field(label, id, ...parts),
    update: (settings) => show(values.indexOf(settings[key])),
  };
}

function select({ key, label, values, text }: Kind<"select">, set: Setter): MadeControl {
  const id = `set-${key}`;
  const options = values.map((value) => element("option", { value }, text(value)));
  const input = element("select", { id, onchange: () => set({ [key]: input.value }) }, ...options);
  return {
    element: field(label, id, input),
    update(settings) {
      input.value = settings[key];
    },
  };
}

function stages({ key, label, values, text }: Kind<"stages">, set: Setter): MadeControl {
  const send = () =>
    set({ [key]: boxes.flatMap((box) => (box.checked ? [] : [box.value])).join(",") });
  const boxes = values.map((value) =>
    element("input", { type: "checkbox", value, onchange: send }),
  );
  const choices = boxes.map((box) => element("label", { class: "choice" }, box, text(box.value)));
  return {
    element: element("fieldset", { class: "control" }, element("legend", {}, label), ...choices),
    update(settings) {
      const off = settings[key].split(",");
      for (const box of boxes) box.checked = !off.includes(box.value);
    },
  };
}

function accuracy({ key, label, hint }: Kind<"accuracy">, set: Setter): MadeControl {
  const id = `set-${key}`;
  const note = element("span", { id: `${id}-hint`, class: "hint" }, hint);
  const take = () => {
    const isFit = isAccuracy(input.value);
    input.setAttribute("aria-invalid", String(!isFit));
    note.textContent = isFit ? hint : `This is no accuracy. Write it ${hint}`;
    if (isFit) set({ [key]: input.value.trim() });
  };
  const input = textInput(id, take, { size: 12, "aria-describedby": note.id });
  return {
    element: field(label, id, input, note),
    update(settings) {
      if (input.getAttribute("aria-invalid") !== "true") input.value = settings[key];
    },
  };
}

/** A field of one line of text that nobody corrects. */
export const textInput = (
  id: string,
  onchange: () => void,
  more: Readonly<Record<string, string | number | boolean>> = {},
) =>
  element("input", {
    id,
    type: "text",
    spellcheck: "false",
    autocomplete: "off",
    maxlength: 200,
    onchange,
    ...more,
  });
