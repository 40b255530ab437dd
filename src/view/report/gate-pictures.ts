import { lineFitSlope, rateOfSlope } from "../../judgement/index.ts";
import type { PeriodReadings } from "../../readings/index.ts";
import type { ChartOptions, PowerLine, SvgNode } from "../chart/index.ts";
import { errorAgainstGateChart, histogramChart } from "../chart/index.ts";
import type { PictureContext } from "./picture-context.ts";

/** Readings joined to ever longer gates, on the very same ticks. */
export interface GateGroup {
  /** Length of the longer gate; s. */
  readonly gate: number;
  readonly joined: number;
  /** Rate by count over time. */
  readonly rate: Float64Array;
  /** Rate by the line fitted to the edges of the readings joined; NaN for a single reading. */
  readonly lineRate: Float64Array;
}

/**
 * Joins back-to-back readings to gates of twice, four times, … their length (s), as long as eight are left.
 */
export function gateGroups({ period, cycles, nominalPeriod }: PeriodReadings): GateGroup[] {
  const groups: GateGroup[] = [];
  for (let joined = 1; period.length / joined >= 8; joined *= 2) {
    const rate = new Float64Array(Math.floor(period.length / joined));
    const lineRate = new Float64Array(rate.length).fill(Number.NaN);
    const edge = new Float64Array(joined + 1);
    const x = new Float64Array(joined + 1);
    let total = 0;
    let whole = 0;
    for (let g = 0; g < rate.length; g++) {
      let count = 0;
      let time = 0;
      for (let i = g * joined; i < (g + 1) * joined; i++) {
        count += cycles[i]!;
        time += cycles[i]! * period[i]!;
        edge[i - g * joined + 1] = count;
        x[i - g * joined + 1] = count * nominalPeriod - time;
      }
      if (joined >= 4) lineRate[g] = rateOfSlope(lineFitSlope(edge, x, nominalPeriod));
      rate[g] = (count * nominalPeriod) / time - 1;
      if (Number.isNaN(count)) continue;
      total += count * nominalPeriod;
      whole++;
    }
    // Where every longer gate has a gap in it there is none to show.
    if (whole === 0) break;
    groups.push({ gate: shortGate(total / whole), joined, rate, lineRate });
  }
  return groups;
}

/** A gate as it is written beside a picture: three digits. */
const shortGate = (gate: number) => Number(gate.toPrecision(3));

/** Histograms of single readings (rates, dimensionless) against gate length. */
export function histogramPicture(
  groups: readonly GateGroup[],
  context: PictureContext,
  options: ChartOptions,
): SvgNode {
  const step = Math.max(1, Math.round((groups.length - 1) / 3));
  const shown = groups.filter((_, i) => i % step === 0).slice(0, 4);
  return histogramChart(
    { gates: shown.map(({ gate, rate }) => ({ gate, reading: rate })), truth: context.truth },
    options,
  );
}

/**
 * Apparent error of a reading (dimensionless) against gate length, with the laws 1/√T, 1/T and 1/T^{3/2}.
 *
 * @returns null where there are fewer than two gates to show
 */
export function errorAgainstGatePicture(
  groups: readonly GateGroup[],
  context: PictureContext,
  options: ChartOptions,
): SvgNode | null {
  const rms = groups.map(({ rate }) => spread(rate, context.truth));
  const kept = groups.map((_, i) => i).filter((i) => rms[i]! > 0);
  if (kept.length < 2) return null;
  const gate = Float64Array.from(kept, (i) => groups[i]!.gate);
  const error = Float64Array.from(kept, (i) => rms[i]!);
  const laws: PowerLine[] = [
    { name: "timing noise of the end edges", slope: -1 },
    { name: "independent readings averaged", slope: -1 / 2 },
    { name: "line fit to white timing noise", slope: -3 / 2 },
  ].map(({ name, slope }) => ({
    name,
    slope,
    at: gate[0]!,
    level: error[0]!,
    from: gate[0]!,
    to: gate[gate.length - 1]!,
  }));
  const about = context.truth === null ? "" : " about the truth";
  const series = [{ name: `mean of readings${about}`, gate, error }];
  const lines = groups.filter(({ lineRate }) => spread(lineRate, context.truth) > 0);
  if (lines.length > 1) {
    series.push({
      name: `line fit${about}`,
      gate: Float64Array.from(lines, (group) => group.gate),
      error: Float64Array.from(lines, ({ lineRate }) => spread(lineRate, context.truth)),
    });
  }
  return errorAgainstGateChart({ series, laws }, options);
}

/** Rms about the truth, or about their own mean where nobody knows it. */
function spread(rate: Float64Array, truth: number | null): number {
  let sum = 0;
  let count = 0;
  for (const y of rate) {
    if (Number.isNaN(y)) continue;
    sum += y;
    count++;
  }
  const about = truth ?? sum / count;
  let squares = 0;
  for (const y of rate) if (!Number.isNaN(y)) squares += (y - about) * (y - about);
  return Math.sqrt(squares / (truth === null ? count - 1 : count));
}
