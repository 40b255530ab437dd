/** Everything that can be set on the page, as it stands in its address. */
export interface Settings {
  readonly step: string;
  readonly seed: string;
  /** What was predicted: such as `period.5000_stages.2`, a step and what was said there. */
  readonly said: string;
  /** Single periods measured. */
  readonly periods: string;
  /** Stages switched off, joined by commas, and the gate looked at. */
  readonly off: string;
  readonly look: string;
  /** Gates on the timeline, such as `0-4,4-8`; the tick that is an outlier, `0` for none. */
  readonly gates: string;
  readonly outlier: string;
  /** A hundred runs: gate, number of gates, dead time; which estimate, held against which rate. */
  readonly units: string;
  readonly count: string;
  readonly dead: string;
  readonly of: string;
  readonly about: string;
  /** Accuracy asked for, and the way of measuring to be tried. */
  readonly within: string;
  readonly way: string;
  /** Burst looked at, and what of it is shown. */
  readonly burst: string;
  readonly span: string;
  /** How long the drive is lost; s. */
  readonly lost: string;
  /** The class's word, the pupil's name, and the runs taken, such as `10x20.1x60`. */
  readonly word: string;
  readonly name: string;
  readonly runs: string;
}

/** Whether a text may stand for a setting; settings without a rule cannot be set by an address. */
export type SettingRules = Readonly<Record<string, (text: string) => boolean>>;

/**
 * Settings as the part of an address after `#`: those that differ from the defaults.
 *
 * @param settings - what is set
 * @param defaults - what is set without an address
 * @returns such as `step=gates&gate=50`; empty where nothing differs
 */
export function toAddress(settings: Settings, defaults: Settings): string {
  const parts = new URLSearchParams();
  for (const key of Object.keys(defaults) as (keyof Settings)[]) {
    if (settings[key] !== defaults[key]) parts.set(key, settings[key]);
  }
  return parts.toString();
}

/**
 * Settings from an address.
 *
 * @param address - the part after `#`
 * @param defaults - for what the address does not say
 * @param rules - what may be said
 * @returns settings, and the keys that made no sense and were left at their defaults
 *
 * Exact case: `fromAddress(toAddress(s, d), d, rules)` gives s back.
 */
export function fromAddress(
  address: string,
  defaults: Settings,
  rules: SettingRules,
): { readonly settings: Settings; readonly refused: readonly string[] } {
  const settings: Record<string, string> = { ...defaults };
  const refused: string[] = [];
  for (const [key, text] of new URLSearchParams(address.replace(/^#/, ""))) {
    if (Object.hasOwn(rules, key) && rules[key]!(text)) settings[key] = text;
    else refused.push(key);
  }
  return { settings: settings as unknown as Settings, refused };
}

/**
 * What was predicted in a step.
 *
 * @param said - the setting
 * @param step - id of the step
 * @returns as the prediction writes it; null where nothing was said yet
 */
export function saidIn(said: string, step: string): string | null {
  const entry = said.split("_").find((one) => one.startsWith(`${step}.`));
  return entry === undefined ? null : entry.slice(step.length + 1);
}

/** The setting with a prediction added, in place of an earlier one of the same step. */
export function withSaid(said: string, step: string, what: string): string {
  const others = said.split("_").filter((one) => one !== "" && !one.startsWith(`${step}.`));
  return [...others, `${step}.${what}`].join("_");
}
