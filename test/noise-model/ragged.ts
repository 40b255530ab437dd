import type { ReadingRecord } from "../../src/noise-model/index.ts";
import { RandomStream } from "../../src/numeric/index.ts";

interface Shape {
  readonly length?: number;
  readonly gap?: number;
  readonly known?: boolean;
  readonly missing?: boolean;
}

/** Readings of ragged values: what they are does not matter to algebra. */
export function ragged(size: number, shape: (i: number) => Shape, warm = false): ReadingRecord {
  const stream = new RandomStream("ragged", String(size));
  const made = {
    length: new Float64Array(size),
    gain: new Float64Array(size),
    gap: new Float64Array(size),
    gapGain: new Float64Array(size).fill(Number.NaN),
    ...(warm ? { temperature: Float64Array.from({ length: size }, (_, i) => Math.sin(i)) } : {}),
  };
  for (let i = 0; i < size; i++) {
    const { length = 1, gap = 0, known = false, missing = false } = shape(i);
    made.length[i] = length;
    made.gap[i] = i === 0 ? 0 : gap;
    made.gain[i] = missing ? Number.NaN : stream.normal() + 0.2 * length;
    if (known) made.gapGain[i] = 0.2 * gap + stream.normal();
  }
  return made;
}

/** Records of every shape that the filter has to take. */
export const shapes: Record<string, ReadingRecord> = {
  "back to back": ragged(24, () => ({})),
  "dead time": ragged(20, () => ({ gap: 0.4 })),
  uneven: ragged(20, (i) => ({ length: 1 + 0.3 * Math.cos(3 * i) })),
  "gaps of known and of unknown cycles": ragged(24, (i) =>
    i === 9 ? { gap: 3.5 } : i === 15 ? { gap: 2, known: true } : {},
  ),
  "a reading missing": ragged(24, (i) => ({ missing: i === 11 })),
  temperature: ragged(24, () => ({}), true),
};
