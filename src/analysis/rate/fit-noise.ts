import type { Readings } from "../../readings/index.ts";
import {
  type ComponentFit,
  componentLikelihood,
  type NoiseLevelsFound,
} from "./component-likelihood.ts";
import { edgeRecord } from "./edge-record.ts";
import { endToEndSlope } from "./end-to-end-slope.ts";
import { flickerPmAtEnds } from "./flicker-pm.ts";
import { meanOfReadingsSlope } from "./mean-of-readings-slope.ts";
import type { NoiseModes } from "./noise-modes.ts";
import { noiseRecord } from "./noise-record.ts";

/** A parameter with its 95 % interval; low is 0 where the noise cannot be told from none. */
export interface FittedParameter {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Noise of a clock and its counter, as far as its readings tell. */
export interface NoiseFit {
  /** Rate at the start of the record; dimensionless. */
  readonly fractionalOffset: FittedParameter;
  readonly agingPerDay: FittedParameter;
  /** rms time error of one edge, all causes together; s; null with dead time, where edges are not seen. */
  readonly edgeJitter: FittedParameter | null;
  /** White noise of a single reading with dead time; dimensionless; null back to back. */
  readonly readingNoise: FittedParameter | null;
  /** Level h₁ of S_y = h₁·f; s²; null with dead time, where it cannot be told from white noise. */
  readonly flickerPm: FittedParameter | null;
  /** Allan deviation at 1 s; dimensionless; null where white FM cannot be told from the measurement's noise. */
  readonly whiteFm: FittedParameter | null;
  /** Allan deviation (floor); dimensionless. */
  readonly flickerFm: FittedParameter;
  /** Allan deviation at 1 s; dimensionless. */
  readonly randomWalkFm: FittedParameter;
  /** What readings alone cannot tell apart, and what is only a limit. */
  readonly notes: readonly string[];
}

/**
 * How far the logarithm may fall below its peak: half the 95 % point of χ² with one degree of freedom in half of all
 * records and with two in the others, in which another level rests at zero at the end of the interval and not at the peak.
 */
const fall = 2.569;
const leastReadings = 20;

/**
 * Fits white and flicker PM, white, flicker and random-walk FM, offset and ageing to readings, all together.
 *
 * Levels by greatest likelihood, intervals by its profile: where it stays within 2.57 of its peak while all other
 * levels are fitted anew. A level that may be zero is a limit. Flicker PM takes part in the likeliest values only where
 * it shows (hardly ever in 60 readings, always in 1000): white PM with some white FM looks much like it, and would lose
 * its share. In the intervals it always takes part.
 *
 * @param readings - the record, its slips repaired; at least 20 readings in one stretch
 * @returns the parameters, in the units of a scenario
 * @throws RangeError if there are too few readings in one stretch or they do not scatter
 *
 * Source: Wilks, Ann. Math. Stat. 9, 60 (1938); Stram & Lee, Biometrics 50, 1171 (1994) for levels at zero; IEEE Std
 * 1139 for the levels. Exact case: scaling all noise by k
 * scales every deviation by k.
 */
export function fitNoise(readings: Readings): NoiseFit {
  const { modes, interval, independent, intervals } = noiseOf(readings);
  if (modes === null || intervals < leastReadings) {
    throw new RangeError(
      `fitNoise: readings must hold at least ${leastReadings} in one stretch, got ${intervals}`,
    );
  }
  if (!modes.power.some((p) => p > 0)) {
    throw new RangeError("fitNoise: readings must scatter, got none that differ");
  }
  const all = fitLevels(modes, scalesOf(modes));
  const plain = fitLevels(modes, withoutFlickerPm(all.scales));
  // Flicker PM and white PM with some white FM look alike: likeliest values without it, unless it shows; intervals with.
  const { best, peak } = all.peak.log - plain.peak.log < fall ? plain : all;
  let widest = peak.driftVariance;
  const parameter = (k: number, of: (level: number) => number): FittedParameter => {
    const { low, high, highest } = profile(modes, all, k);
    widest = Math.max(widest, componentLikelihood(modes, highest).driftVariance);
    const level = low === 0 && best[k]! < 1e-6 * all.scales[k]! ? 0 : best[k]!;
    return { value: of(level), low: of(Math.min(low, level)), high: of(Math.max(high, level)) };
  };
  const deviation = (unit: number) => (level: number) => unit * Math.sqrt(level);
  const measurement = parameter(0, deviation(independent ? 1 : interval));
  const white = modes.whiteFm === null ? null : parameter(1, deviation(Math.sqrt(interval)));
  const flicker = parameter(2, deviation(Math.sqrt(2 * Math.LN2)));
  const walk = parameter(3, deviation(1 / Math.sqrt(3 * interval)));
  // S_x = h₁/(4π²f) is level·τ₀²/(πf), one-sided.
  const toH1 = (level: number) => 4 * Math.PI * interval * interval * level;
  const phase = modes.flickerPm === null ? null : parameter(4, toH1);
  const perDay = 86400 / interval;
  // The levels behind it are themselves uncertain: halfway, in the logarithm, to their upper ends.
  const half = 1.96 * Math.sqrt(Math.sqrt(peak.driftVariance * widest));
  const aging = symmetric(peak.drift * perDay, half * perDay);
  return {
    fractionalOffset: offsetOf(readings, modes, best, peak.drift, half),
    agingPerDay: aging,
    edgeJitter: independent ? null : measurement,
    readingNoise: independent ? measurement : null,
    flickerPm: phase,
    whiteFm: white,
    flickerFm: flicker,
    randomWalkFm: walk,
    notes: notesOf(independent, { phase, white, flicker, walk }, aging),
  };
}

/** The likeliest levels of the kinds of noise whose scale is not 0. */
interface LevelsFit {
  readonly scales: NoiseLevelsFound;
  readonly best: NoiseLevelsFound;
  readonly peak: ComponentFit;
}

function fitLevels(modes: NoiseModes, scales: NoiseLevelsFound): LevelsFit {
  const best = climb(modes, scales, startOf(scales), null);
  return { scales, best, peak: componentLikelihood(modes, best) };
}

const withoutFlickerPm = ([pm, white, flicker, walk]: NoiseLevelsFound): NoiseLevelsFound => [
  pm,
  white,
  flicker,
  walk,
  0,
];

function noiseOf(readings: Readings) {
  if (readings.kind === "time_error") {
    const edge = readings.timeError.map((_, i) => i);
    return noiseRecord(readings, { edge, x: readings.timeError }).edges;
  }
  return noiseRecord(readings, edgeRecord(readings)).readings;
}

function symmetric(value: number, half: number): FittedParameter {
  return { value, low: value - half, high: value + half };
}

/** Level at which each noise alone would make all of the scatter. */
function scalesOf(modes: NoiseModes): NoiseLevelsFound {
  const alone = (shape: Float64Array | null) => {
    if (shape === null) return 0;
    let sum = 0;
    for (let i = 0; i < shape.length; i++) sum += modes.power[i]! / shape[i]!;
    return sum / modes.degreesOfFreedom;
  };
  return [
    alone(modes.measurement),
    alone(modes.whiteFm),
    alone(modes.flickerFm),
    alone(modes.randomWalkFm),
    alone(modes.flickerPm),
  ];
}

const startOf = (scales: NoiseLevelsFound): NoiseLevelsFound =>
  scales.map((s) => s / 100) as unknown as NoiseLevelsFound;

/** Climbs one level at a time, in its logarithm, until a round gains nothing. */
function climb(
  modes: NoiseModes,
  scales: NoiseLevelsFound,
  start: NoiseLevelsFound,
  held: number | null,
): NoiseLevelsFound {
  const levels = [...start] as [number, number, number, number, number];
  let value = componentLikelihood(modes, levels).log;
  for (let round = 0; round < 40; round++) {
    const before = value;
    for (let k = 0; k < levels.length; k++) {
      if (k === held || scales[k] === 0) continue;
      const at = (log: number) => {
        levels[k] = scales[k]! * Math.exp(log);
        return componentLikelihood(modes, levels).log;
      };
      const found = highest(at, levels[k]! > 0 ? Math.log(levels[k]! / scales[k]!) : lowest, round);
      levels[k] = scales[k]! * Math.exp(found);
      value = at(found);
    }
    if (value - before < 5e-3) break;
  }
  return levels;
}

/** Smallest level looked at, in the logarithm of its scale: as good as none. */
const lowest = -30;

/** Highest point of a curve with one peak and a flat left end: a coarse search at first, then golden section. */
function highest(at: (log: number) => number, near: number, round: number): number {
  let low = near - 3;
  let high = Math.min(3, near + 3);
  if (round < 2) {
    let best = lowest;
    let most = at(lowest);
    for (let x = lowest + 2; x <= 3; x += 2) {
      const value = at(x);
      if (value > most) {
        most = value;
        best = x;
      }
    }
    low = best - 2;
    high = best + 2;
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let a = high - golden * (high - low);
  let b = low + golden * (high - low);
  let fa = at(a);
  let fb = at(b);
  while (high - low > 0.03) {
    if (fa >= fb) {
      high = b;
      b = a;
      fb = fa;
      a = high - golden * (high - low);
      fa = at(a);
    } else {
      low = a;
      a = b;
      fa = fb;
      b = low + golden * (high - low);
      fb = at(b);
    }
  }
  return Math.max(lowest, (low + high) / 2);
}

/** Levels at which the profile has fallen by as much as 95 % allow; 0 where it has not before zero. */
function profile(
  modes: NoiseModes,
  { scales, best, peak }: LevelsFit,
  k: number,
): { low: number; high: number; highest: NoiseLevelsFound } {
  const refit = (level: number) => {
    const start = best.map((b, i) => (i === k ? level : Math.max(b, 1e-9 * scales[i]!)));
    return climb(modes, scales, start as unknown as NoiseLevelsFound, k);
  };
  const drop = (level: number) => peak.log - componentLikelihood(modes, refit(level)).log;
  const edge = (inside: number, outside: number) => {
    let a = inside;
    let b = outside;
    for (let i = 0; i < 9; i++) {
      const middle = (a + b) / 2;
      if (drop(scales[k]! * Math.exp(middle)) < fall) a = middle;
      else b = middle;
    }
    return scales[k]! * Math.exp((a + b) / 2);
  };
  const centre = Math.log(Math.max(best[k]!, 1e-12 * scales[k]!) / scales[k]!);
  let above = centre;
  while (above < 8 && drop(scales[k]! * Math.exp(above)) < fall) above += 1;
  let below = centre;
  const shows = drop(0) >= fall;
  while (shows && below > lowest && drop(scales[k]! * Math.exp(below)) < fall) below -= 1;
  const low = shows ? edge(Math.min(centre, below + 1), below) : 0;
  const high = edge(Math.max(centre, above - 1), above);
  return { low, high, highest: refit(high) };
}

function offsetOf(
  readings: Readings,
  modes: NoiseModes,
  levels: NoiseLevelsFound,
  drift: number,
  half: number,
): FittedParameter {
  const n = modes.intervals;
  let rate: number;
  if (readings.kind === "time_error") {
    const kept = [...readings.timeError.keys()].filter(
      (i) => !Number.isNaN(readings.timeError[i]!),
    );
    const x = Float64Array.from(kept, (i) => readings.timeError[i]!);
    rate = endToEndSlope(Float64Array.from(kept), x, readings.spacing);
  } else {
    const { period, cycles, nominalPeriod } = readings;
    const advance = period.map((p, i) => cycles[i]! * (nominalPeriod - p));
    const slope = meanOfReadingsSlope(advance, cycles, nominalPeriod);
    rate = slope / (1 - slope);
  }
  const [pm, white, , , phase] = levels;
  const ends = 2 * pm + phase * flickerPmAtEnds(n);
  const measurement = modes.whiteFm === null ? pm / n : ends / (n * n) + white / n;
  // From the middle of the record, where its mean rate belongs, back to its start.
  const back = (half * n) / 2;
  return symmetric(rate - (drift * n) / 2, Math.hypot(1.96 * Math.sqrt(measurement), back));
}

function notesOf(
  independent: boolean,
  found: Readonly<Record<"phase" | "white" | "flicker" | "walk", FittedParameter | null>>,
  aging: FittedParameter,
): string[] {
  const notes = independent
    ? ["with dead time, the counter's noise, jitter of the edges and white FM cannot be told apart"]
    : [
        "jitter of the clock's contact, of the detector, of a synthesizer or flicker PM faster than a reading, and of the counter's trigger and resolution cannot be told apart: their sum is given as jitter of the edge",
      ];
  const limits = [
    ["flicker PM", found.phase],
    ["white FM", found.white],
    ["flicker FM", found.flicker],
    ["random-walk FM", found.walk],
  ] as const;
  for (const [name, p] of limits) {
    if (p === null || p.low > 0) continue;
    notes.push(
      p.value > 0
        ? `${name} does not show for certain: the scenario has its likeliest level, which may be none`
        : `${name} does not show in the readings: only its upper limit is known`,
    );
  }
  if (aging.low <= 0 && aging.high >= 0)
    notes.push(
      "ageing does not show in the readings: the scenario goes without, at the mean rate of the record",
    );
  notes.push("an offset of the counter's time base cannot be told from one of the clock");
  return notes;
}
