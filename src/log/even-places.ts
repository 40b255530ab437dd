import { present, select } from "../numeric/index.ts";

/** Where the readings of a record with time stamps stand, and what the stamps tell beside. */
export interface Places {
  /** Usual spacing: the mean of those steps that span no gap; s, > 0. */
  readonly spacing: number;
  /** How far the rounding of the stamps may have shifted it; s. */
  readonly bound: number;
  /** Place of each reading, ascending from 0. */
  readonly place: Int32Array;
  /** Places in all. */
  readonly length: number;
  /** Stamps, with the clock put right where it was set by whole hours. */
  readonly time: Float64Array;
  /** Readings before which the stamps leave room for others, and for how many. */
  readonly gaps: readonly { readonly at: number; readonly missing: number }[];
  /** Readings before which the stamping clock was set, and by how many hours. */
  readonly changes: readonly { readonly at: number; readonly hours: number }[];
  /** Readings before which the stamps go back. */
  readonly backward: readonly number[];
  /** Share of the steps that are no whole number of spacings. */
  readonly uneven: number;
}

const hour = 3600;
/** Share of the spacing by which a step may miss a whole number of them. */
const offWhole = 0.3;
/** More places than this for each reading are no gap in a record, but a record of gaps. */
const mostPlaces = 100;

/**
 * Places readings on an even grid by their time stamps, which need not be even: they are rounded, come late, and their
 * clock may be set by an hour.
 *
 * Stamps rounded to whole seconds step unevenly (10, 10, 11 s) and have a median far from their mean, so the mean is
 * the spacing.
 *
 * @param given - time stamps; K values, s, NaN where missing (one spacing is taken)
 * @param resolution - step in which they are written; s
 * @param isLocal - whether their clock may be set by an hour: it shows a time of day without a zone
 * @returns the places; null where the stamps tell no spacing
 */
export function evenPlaces(
  given: Float64Array,
  resolution: number,
  isLocal: boolean,
): Places | null {
  const time = given.slice();
  const steps = new Float64Array(Math.max(0, time.length - 1));
  const usualOf = () => {
    for (let i = 0; i < steps.length; i++) steps[i] = time[i + 1]! - time[i]!;
    // Of two in the middle the shorter: the longer may hold a gap.
    const known = present(steps);
    return known.length === 0 ? Number.NaN : select(known, (known.length - 1) >> 1);
  };
  let usual = usualOf();
  // Stamps coarser than the readings are close: only all together tell how close.
  if (usual < 2 * resolution) usual = meanStep(time);
  if (!(usual > 0)) return null;
  const changes: { at: number; hours: number }[] = [];
  const backward: number[] = [];
  let set = 0;
  for (let i = 0; i < steps.length; i++) {
    let step = steps[i]!;
    const hours = Math.round((step - usual) / hour);
    const slack = Math.max(usual / 2, resolution);
    if (
      isLocal &&
      Math.abs(hours) === 1 &&
      usual < hour / 2 &&
      Math.abs(step - usual - hours * hour) <= slack
    ) {
      changes.push({ at: i + 1, hours });
      step -= hours * hour;
      set += hours * hour;
    } else if (step < -resolution) {
      backward.push(i + 1);
      step = usual;
      set += steps[i]! - usual;
    }
    steps[i] = step;
    time[i + 1] = given[i + 1]! - set;
  }
  const { spacing, bound } = refined(steps, usual, resolution);
  const place = new Int32Array(time.length);
  const gaps: { at: number; missing: number }[] = [];
  const isFine = resolution < usual / 2;
  let uneven = 0;
  for (let i = 0; i < steps.length; i++) {
    const count = Number.isNaN(steps[i]!) ? 1 : steps[i]! / spacing;
    const rounded = Math.max(1, Math.round(count));
    if (Math.abs(count - rounded) > offWhole + resolution / spacing) uneven++;
    const isGap = count > 1.5 + (isFine ? 0 : resolution / spacing);
    let whole = isGap ? rounded : 1;
    if (place[i]! + whole > mostPlaces * time.length + 1000) whole = 2;
    if (isGap) gaps.push({ at: i + 1, missing: rounded - 1 });
    place[i + 1] = place[i]! + whole;
  }
  return {
    spacing,
    bound,
    place,
    length: place.at(-1)! + 1,
    time,
    gaps,
    changes,
    backward,
    uneven: uneven / Math.max(1, steps.length),
  };
}

function meanStep(time: Float64Array): number {
  const known = present(time);
  return (known.at(-1)! - known[0]!) / (known.length - 1);
}

/** The mean of the steps near the usual one, and how far rounded stamps may shift it. */
function refined(
  steps: Float64Array,
  usual: number,
  resolution: number,
): { spacing: number; bound: number } {
  let [sum, single, runs, isRun] = [0, 0, 0, false];
  for (const step of steps) {
    const isSingle = step > usual / 2 && step < 1.5 * usual;
    if (isSingle) {
      sum += step;
      single++;
      if (!isRun) runs++;
    }
    isRun = isSingle;
  }
  if (single === 0) return { spacing: usual, bound: resolution };
  // Within a run of such steps only its two ends are left in the sum.
  const mean = sum / single;
  return {
    spacing: Math.abs(mean / usual - 1) < 1e-9 ? usual : mean,
    bound: (runs * resolution) / single,
  };
}
