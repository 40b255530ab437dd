import type { ChartOptions, SvgNode } from "../../src/view/chart/index.ts";
import {
  budgetChart,
  burstChart,
  deviationChart,
  errorAgainstGateChart,
  histogramChart,
  planChart,
  timeErrorChart,
} from "../../src/view/chart/index.ts";
import { deviates } from "./deviates.ts";
import { backToBack, readings } from "./sample-readings.ts";

const octaves = (first: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => first * 2 ** i);

const decades = (first: number, count: number, perDecade: number) =>
  Float64Array.from({ length: count }, (_, i) => first * 10 ** (i / perDecade));

function histogram(options: ChartOptions): SvgNode {
  const next = deviates(12);
  const gates = [1, 5, 20, 100].map((gate) => ({
    gate,
    reading: Float64Array.from({ length: 400 }, () => (2e-6 * next()) / gate + 2e-8),
  }));
  return histogramChart({ gates, truth: 2e-8 }, options);
}

function errorAgainstGate(options: ChartOptions): SvgNode {
  const gate = octaves(1, 15);
  const backToBack = gate.map((t) => Math.sqrt((4e-6 / t) ** 2 + (2e-11 / Math.sqrt(t)) ** 2));
  const fitted = gate.map((t) => Math.sqrt((9e-6 / t ** 1.5) ** 2 + (2e-11 / Math.sqrt(t)) ** 2));
  const apart = gate.map((t) => 4e-6 / Math.sqrt(t));
  const within = { from: 1, to: 16384 };
  return errorAgainstGateChart(
    {
      series: [
        { name: "gates with dead time, mean of readings", gate, error: apart },
        { name: "gates back to back, mean of readings", gate, error: backToBack },
        { name: "gates back to back, line fit", gate, error: fitted },
      ],
      laws: [
        { name: "every reading errs anew", slope: -0.5, at: 1, level: 8e-6, ...within },
        { name: "only first and last edge count", slope: -1, at: 1, level: 8e-6, ...within },
        {
          name: "all edges share the error",
          slope: -1.5,
          at: 1,
          level: 8e-6,
          ...within,
        },
      ],
    },
    options,
  );
}

function deviation(options: ChartOptions): SvgNode {
  const tau = octaves(1, 15);
  const allan = tau.map((t) => Math.sqrt((5e-6 / t) ** 2 + 2e-9 ** 2));
  const modified = tau.map((t, i) => allan[i]! / Math.sqrt(t) + 2e-9);
  return deviationChart(
    {
      series: [
        {
          name: "overlapping Allan deviation",
          tau,
          deviation: allan,
          low: allan.map((value, i) => value * (1 - 0.02 * i ** 1.3)),
          high: allan.map((value, i) => value * (1 + 0.05 * i ** 1.3)),
        },
        { name: "modified Allan deviation", tau, deviation: modified },
        {
          name: "overlapping Hadamard deviation",
          tau: tau.slice(0, 13),
          deviation: allan.slice(0, 13),
        },
      ],
      guides: [
        { name: "white PM", slope: -1, at: 1, level: 1e-5, from: 1, to: 2048 },
        { name: "flicker FM", slope: 0, at: 1, level: 3e-9, from: 1024, to: 16384 },
      ],
    },
    options,
  );
}

function timeError(options: ChartOptions): SvgNode {
  const next = deviates(13);
  const time = Float64Array.from({ length: 120 }, (_, i) => i * 600);
  const timeError = time.map((t, i) => {
    const lost = i >= 40 && i < 52 ? NaN : 0;
    return 2e-8 * t + 4e-5 * next() - (i > 80 ? 0.0006 : 0) + lost;
  });
  return timeErrorChart(
    {
      time,
      timeError,
      fit: { intercept: 0.0001, slope: 1.4e-8 },
      slips: [{ at: 81 * 600, steps: -1 }],
      fallback: [{ from: 40 * 600, to: 52 * 600 }],
    },
    options,
  );
}

function budget(options: ChartOptions): SvgNode {
  const gate = octaves(1, 12);
  const law = (level: number, slope: number) => gate.map((t) => level * t ** slope);
  const stages = [
    { name: "reference oscillator, white FM", fraction: law(2e-11, -0.5) },
    { name: "synthesizer loop", fraction: law(6e-8, -1) },
    { name: "drive, start phase of the tone", fraction: law(2.9e-4, -1) },
    { name: "receiver noise", fraction: law(8e-5, -1) },
    { name: "counter trigger", fraction: law(7e-6, -1) },
    { name: "counter resolution", fraction: law(4e-8, -1) },
  ];
  const total = gate.map((_, i) =>
    Math.sqrt(stages.reduce((sum, { fraction }) => sum + fraction[i]! ** 2, 0)),
  );
  const at = Float64Array.of(1, 32, 1024);
  const simulated = at.map((t) => 3.1e-4 / t);
  return budgetChart(
    {
      gate,
      stages,
      total,
      simulated: {
        gate: at,
        fraction: simulated,
        low: simulated.map((value) => value * 0.8),
        high: simulated.map((value) => value * 1.3),
      },
    },
    options,
  );
}

function plan(options: ChartOptions): SvgNode {
  const length = decades(60, 25, 4);
  const sum = (level: number, slope: number) =>
    length.map((t) => Math.sqrt((level * t ** slope) ** 2 + (2e-11 / Math.sqrt(t)) ** 2));
  return planChart(
    {
      goal: 1e-8,
      quantity: "Half-width of the 95 % interval of the rate",
      strategies: [
        {
          name: "periods with dead time, mean of readings",
          length,
          uncertainty: sum(1e-5, -0.5),
          reaches: 1e6,
          when: "11.6 days",
        },
        {
          name: "gates back to back, mean of readings",
          length,
          uncertainty: sum(6e-4, -1),
          reaches: 6e4,
          when: "16 h 40 min",
        },
        {
          name: "gates back to back, line fit",
          length,
          uncertainty: sum(6e-3, -1.5),
          reaches: 7114,
          when: "1 h 59 min",
        },
        {
          name: "one period only",
          length,
          uncertainty: length.map(() => 3e-4),
          reaches: null,
          when: "never",
        },
      ],
    },
    options,
  );
}

function burst(options: ChartOptions): SvgNode {
  const time = Float64Array.from({ length: 241 }, (_, i) => (i - 20) * 4e-4);
  const tone = time.map((t) =>
    t < 0 || t > 0.06 ? 0 : 12 * Math.abs(Math.sin(2 * Math.PI * 137 * t)),
  );
  let v = 0;
  const voltage = tone.map((drive) => {
    v += ((drive - v) / 0.01) * 4e-4;
    return v;
  });
  const delay = time[voltage.findIndex((value) => value >= 4.5)]!;
  return burstChart(
    { time, voltage, tone, threshold: 4.5, burst: 0.06, delay, number: 17 },
    options,
  );
}

/** A picture of every chart, as a user would see it, by the name of its file. */
export const sampleCharts: Readonly<Record<string, (options: ChartOptions) => SvgNode>> = {
  readings,
  "readings-back-to-back": backToBack,
  histogram,
  "error-against-gate": errorAgainstGate,
  deviation,
  "time-error": timeError,
  budget,
  plan,
  burst,
};
