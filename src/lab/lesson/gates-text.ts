/** A gate on the timeline, from tick to tick. */
export type Gate = readonly [from: number, to: number];

/** Ticks on the timeline: 0 to this one. */
export const lastTick = 16;

/** Most gates on the timeline. */
const mostGates = 6;

/**
 * Gates from a setting.
 *
 * @param text - such as `0-4,4-8,10-13`
 * @returns gates in their order, none empty, none over another; null where the text says no such thing
 */
export function gatesIn(text: string): readonly Gate[] | null {
  if (!/^\d+-\d+(,\d+-\d+)*$/.test(text)) return null;
  const gates = text.split(",").map((one) => one.split("-").map(Number) as [number, number]);
  const edges = gates.flat();
  const isSound =
    gates.length <= mostGates &&
    gates.every(([from, to]) => from < to) &&
    edges.every((tick, i) => tick <= lastTick && (i === 0 || tick >= edges[i - 1]!));
  return isSound ? gates : null;
}

/** The setting for some gates. */
export const gatesText = (gates: readonly Gate[]): string =>
  gates.map(([from, to]) => `${from}-${to}`).join(",");
