import { element } from "./element.ts";

/** The seed, to be seen and changed. */
export interface SeedView {
  readonly element: HTMLElement;
  readonly update: (seed: string) => void;
}

/**
 * Makes the seed's field.
 *
 * @param set - takes another seed
 */
export function seedView(set: (seed: string) => void): SeedView {
  const input = element("input", {
    id: "set-seed",
    type: "text",
    size: 14,
    maxlength: 200,
    spellcheck: "false",
    autocomplete: "off",
    required: true,
    onchange: () => {
      if (input.value !== "") set(input.value);
    },
  });
  const fresh = () => {
    const words = crypto.getRandomValues(new Uint32Array(1));
    set(`s${words[0]!.toString(36)}`);
  };
  return {
    element: element(
      "div",
      { class: "control" },
      element("label", { for: "set-seed" }, "Seed"),
      input,
      element("button", { type: "button", onclick: fresh }, "New seed"),
    ),
    update(seed) {
      input.value = seed;
    },
  };
}
