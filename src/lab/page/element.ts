/** What an element may be given: attributes, and listeners under `onclick` and the like. */
type Properties = Readonly<Record<string, string | number | boolean | ((event: Event) => void)>>;

function fill<E extends Element>(
  made: E,
  properties: Properties,
  children: readonly (Node | string)[],
): E {
  for (const [name, value] of Object.entries(properties)) {
    if (typeof value === "function") made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false) made.setAttribute(name, String(value));
  }
  made.append(...children);
  return made;
}

/**
 * Makes an element of the page.
 *
 * @param tag - its name
 * @param properties - attributes; true sets an empty one, false none; a function listens to the event `on…`
 * @param children - elements and text; text stays text
 */
export function element<T extends keyof HTMLElementTagNameMap>(
  tag: T,
  properties: Properties = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[T] {
  return fill(document.createElement(tag), properties, children);
}

/** The same of a drawing. */
export function drawn<T extends keyof SVGElementTagNameMap>(
  tag: T,
  properties: Properties = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[T] {
  return fill(document.createElementNS("http://www.w3.org/2000/svg", tag), properties, children);
}

/** A button that sends no form. */
export const button = (text: string, onclick: (event: Event) => void, more: Properties = {}) =>
  element("button", { type: "button", onclick, ...more }, text);
