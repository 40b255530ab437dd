import {
  type Known,
  ladder,
  leastSquares,
  NoisePosterior,
  type ReadingRecord,
  slowerThanLadder,
  toEvents,
} from "../../../src/noise-model/index.ts";
import { Deviates, flickerMaker, makeRecord, type Recipe } from "./generators.ts";

/** How readings lie in time. */
export type Layout = "back to back" | "dead time" | "uneven" | "gaps";

/** Shares of intervals that held the truth, and their median widths over those of who knows the levels. */
export interface Coverage {
  readonly seeds: number;
  readonly overRun: number;
  readonly overRunWidth: number;
  readonly steady: number;
  readonly steadyWidth: number;
}

/** Readings of the stamps of one second each: by layout, some stamps are not used. */
export function readingsOf(stamps: Float64Array, layout: Layout): ReadingRecord {
  const edges: { at: number; starts: boolean }[] = [];
  const last = stamps.length - 1;
  for (let k = 0; k <= last; k++) {
    if (layout === "dead time") edges.push({ at: k, starts: k % 2 === 0 });
    else if (layout === "uneven" && k % 7 === 3 && k < last) continue;
    else if (layout === "gaps" && last > 10 && k === Math.floor(last / 3) + 1) {
    } else
      edges.push({
        at: k,
        starts: k === 0 || (layout === "gaps" && k === Math.floor(last / 3) + 2),
      });
  }
  if (layout === "dead time" && last % 2 === 0) edges.pop();
  const length: number[] = [];
  const gain: number[] = [];
  const gap: number[] = [];
  let end = 0;
  edges.forEach(({ at, starts }, i) => {
    if (starts) return;
    const from = edges[i - 1]!;
    length.push(at - from.at);
    gain.push(stamps[at]! - stamps[from.at]!);
    gap.push(from.starts ? from.at - end : 0);
    end = at;
  });
  return {
    length: Float64Array.from(length),
    gain: Float64Array.from(gain),
    gap: Float64Array.from(gap),
    gapGain: new Float64Array(gap.length).fill(Number.NaN),
  };
}

export interface CoverageCase {
  readonly size: number;
  readonly recipe: Recipe;
  readonly layout?: Layout;
  /** What is stated of the source, from the recipe. */
  readonly known?: Known;
}

/** Measures both intervals over so many seeds. */
export function coverage(
  { size, recipe, layout = "back to back", known }: CoverageCase,
  seeds: number,
  firstSeed = 1,
): Coverage {
  const steps = layout === "dead time" ? 2 * size : size;
  const flicker = recipe.ffm > 0 ? flickerMaker(steps) : undefined;
  let overRun = 0;
  let steady = 0;
  const overRunWidth: number[] = [];
  const steadyWidth: number[] = [];
  for (let seed = firstSeed; seed < firstSeed + seeds; seed++) {
    const { phase, stamps } = makeRecord(steps, recipe, new Deviates(seed), flicker);
    const record = readingsOf(stamps, layout);
    const posterior = new NoisePosterior(toEvents(record), known, true);
    const last = layout === "dead time" && steps % 2 === 0 ? steps - 1 : steps;
    const truth = (phase[last]! - phase[0]!) / last;
    const run = posterior.overRun();
    const long = posterior.steady();
    if (run.low <= truth && truth <= run.high) overRun++;
    if (long.low <= 0 && 0 <= long.high) steady++;
    const { events, timeUnit, phaseUnit } = posterior.scaled;
    const times = ladder(1, events.duration);
    const p2 = phaseUnit ** 2;
    const exact = leastSquares(
      events,
      {
        pm: Math.max(recipe.pm, 1e-9) / p2,
        wfm: (recipe.wfm * timeUnit) / p2,
        ffm: (recipe.ffm * timeUnit ** 2) / p2,
        rw: (recipe.rw * timeUnit ** 3) / p2,
      },
      times,
    );
    const unit = (3.92 * phaseUnit) / timeUnit;
    const rest = slowerThanLadder(times, events.duration) * ((recipe.ffm * timeUnit ** 2) / p2);
    overRunWidth.push((run.high - run.low) / (unit * Math.sqrt(exact.overRun.variance)));
    steadyWidth.push((long.high - long.low) / (unit * Math.sqrt(exact.steady.variance + rest)));
  }
  return {
    seeds,
    overRun: overRun / seeds,
    overRunWidth: median(overRunWidth),
    steady: steady / seeds,
    steadyWidth: median(steadyWidth),
  };
}

export function median(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}
