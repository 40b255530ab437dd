/** Everything that can be set on the page, as it stands in its address. */
export interface Settings {
  readonly step: string;
  readonly seed: string;
  /** Step 1: periods measured. */
  readonly periods: string;
  /** Step 2: stages switched off, joined by commas, and the gate looked at. */
  readonly off: string;
  readonly look: string;
  /** Step 3: the longer gate. */
  readonly gate: string;
  /** Step 4: gate, number of gates, dead time, and what is done about a missed edge. */
  readonly units: string;
  readonly count: string;
  readonly dead: string;
  readonly edge: string;
  /** Step 5: accuracy asked for, and the way of measuring to be tried. */
  readonly within: string;
  readonly way: string;
  /** Burst looked at. */
  readonly burst: string;
  /** What of it is shown. */
  readonly span: string;
  /** How long the drive is lost; s. */
  readonly lost: string;
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
