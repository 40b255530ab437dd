import { isAccuracy } from "../lesson/defaults.ts";
import type { Settings } from "../lesson/settings.ts";
import type { Control } from "../lesson/step.ts";
import { element } from "./element.ts";

/** A control on the page. */
export interface MadeControl {
  readonly element: HTMLElement;
  /** Shows what is set. */
  readonly update: (settings: Settings) => void;
}

type Setter = (change: Partial<Settings>) => void;

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

type Kind<K extends Control["kind"]> = Extract<Control, { kind: K }>;

function stepper(control: Kind<"stepper">, set: Setter): MadeControl {
  const { key, label, least, most, back, on } = control;
  const id = `set-${key}`;
  const input = element("input", {
    id,
    type: "number",
    min: least,
    max: most,
    step: 1,
    inputmode: "numeric",
    required: true,
    // Not a number where it was emptied.
    onchange: () => put(input.valueAsNumber),
  });
  const put = (value: number) => {
    const whole = Math.round(value);
    const isFit = whole >= least && whole <= most;
    if (isFit) set({ [key]: String(whole) });
    else input.reportValidity();
  };
  const previous = element(
    "button",
    { type: "button", onclick: () => put(Number(input.value) - 1) },
    back,
  );
  const next = element(
    "button",
    { type: "button", onclick: () => put(Number(input.value) + 1) },
    on,
  );
  return {
    element: element(
      "div",
      { class: "control" },
      element("label", { for: id }, label),
      input,
      previous,
      next,
    ),
    update(settings) {
      input.value = settings[key];
      // Not `disabled`: the button that has the focus must keep it.
      previous.setAttribute("aria-disabled", String(Number(settings[key]) <= least));
      next.setAttribute("aria-disabled", String(Number(settings[key]) >= most));
    },
  };
}

function range(control: Kind<"range">, set: Setter): MadeControl {
  const { key, label, values, text } = control;
  const id = `set-${key}`;
  const input = element("input", {
    id,
    type: "range",
    min: 0,
    max: values.length - 1,
    step: 1,
    oninput: () => set({ [key]: values[Number(input.value)]! }),
  });
  const shown = element("output", { for: id });
  return {
    element: element(
      "div",
      { class: "control" },
      element("label", { for: id }, label),
      input,
      shown,
    ),
    update(settings) {
      input.value = String(values.indexOf(settings[key]));
      const words = text(settings[key]);
      input.setAttribute("aria-valuetext", words);
      shown.textContent = words;
    },
  };
}

function select(control: Kind<"select">, set: Setter): MadeControl {
  const { key, label, values, text } = control;
  const id = `set-${key}`;
  const input = element(
    "select",
    { id, onchange: () => set({ [key]: input.value }) },
    ...values.map((value) => element("option", { value }, text(value))),
  );
  return {
    element: element("div", { class: "control" }, element("label", { for: id }, label), input),
    update(settings) {
      input.value = settings[key];
    },
  };
}

function stages(control: Kind<"stages">, set: Setter): MadeControl {
  const { key, label, values, text } = control;
  const boxes = values.map((value) =>
    element("input", { type: "checkbox", value, onchange: send }),
  );
  function send() {
    const off = boxes.filter((box) => !box.checked).map((box) => box.value);
    set({ [key]: off.join(",") });
  }
  return {
    element: element(
      "fieldset",
      { class: "control" },
      element("legend", {}, label),
      ...boxes.map((box) => element("label", { class: "choice" }, box, text(box.value))),
    ),
    update(settings) {
      const off = settings[key].split(",");
      for (const box of boxes) box.checked = !off.includes(box.value);
    },
  };
}

function accuracy(control: Kind<"accuracy">, set: Setter): MadeControl {
  const { key, label, hint } = control;
  const id = `set-${key}`;
  const note = element("span", { id: `${id}-hint`, class: "hint" }, hint);
  const input = element("input", {
    id,
    type: "text",
    size: 12,
    spellcheck: "false",
    autocomplete: "off",
    "aria-describedby": note.id,
    onchange: () => {
      const isFit = isAccuracy(input.value);
      input.setAttribute("aria-invalid", String(!isFit));
      note.textContent = isFit ? hint : `This is no accuracy. Write it ${hint}`;
      if (isFit) set({ [key]: input.value.trim() });
    },
  });
  return {
    element: element(
      "div",
      { class: "control" },
      element("label", { for: id }, label),
      input,
      note,
    ),
    update(settings) {
      if (input.getAttribute("aria-invalid") !== "true") input.value = settings[key];
    },
  };
}
