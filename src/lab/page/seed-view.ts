import { field, textInput } from "./controls.ts";
import { button } from "./element.ts";

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
  const take = () => {
    if (input.value !== "") set(input.value);
  };
  const input = textInput("set-seed", take, { size: 14, required: true });
  const fresh = () => set(`s${crypto.getRandomValues(new Uint32Array(1))[0]!.toString(36)}`);
  return {
    element: field("Seed", "set-seed", input, button("New seed", fresh)),
    update(seed) {
      input.value = seed;
    },
  };
}
