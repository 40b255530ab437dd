/** The ends of a typical range. */
export type Range = readonly [least: number, greatest: number];

/** What is typical of one class of oscillators. */
export interface OscillatorClass {
  readonly kind: string;
  /** Half-width of the bound of its fractional offset; dimensionless. */
  readonly accuracy: number;
  /** Ageing in a year; 0: none. */
  readonly agingPerYear: Range;
  /** Coefficient of the rate on temperature, linear (1/K) or parabolic about 25 °C (1/K²). */
  readonly temperature: { readonly linear_per_k?: number; readonly parabolic_per_k2?: number };
  /** Allan deviation at 1 s, taken as white FM. */
  readonly adev1s: Range;
  /** Floor of the Allan deviation. */
  readonly floor: Range;
  readonly source: string;
}

const vig = "accuracy, ageing: Vig, Introduction to Quartz Frequency Standards (1992), table 1";
const memory = "from memory";

/** Typical sizes by class. Source: of each row; "from memory": no source opened, check the data sheet. */
export const oscillatorClasses: Readonly<Record<string, OscillatorClass>> = {
  "watch-crystal": {
    kind: "tuning-fork quartz of 32 kHz",
    accuracy: 2e-5,
    agingPerYear: [3e-6, 3e-6],
    temperature: { parabolic_per_k2: -3.5e-8 },
    adev1s: [1e-9, 1e-9],
    floor: [3e-10, 3e-10],
    source: `common practice, ${memory}`,
  },
  quartz: {
    kind: "plain quartz oscillator",
    accuracy: 1e-4,
    agingPerYear: [1e-6, 5e-6],
    temperature: { linear_per_k: 1e-5 / 70 },
    adev1s: [1e-10, 1e-9],
    floor: [1e-10, 1e-10],
    source: memory,
  },
  tcxo: {
    kind: "temperature-compensated quartz",
    accuracy: 2e-6,
    agingPerYear: [5e-7, 5e-7],
    temperature: { linear_per_k: 5e-7 / 70 },
    adev1s: [1e-9, 1e-9],
    floor: [1e-10, 1e-9],
    source: `${vig}; rest ${memory}`,
  },
  ocxo: {
    kind: "oven-controlled quartz",
    accuracy: 1e-8,
    agingPerYear: [5e-9, 5e-9],
    temperature: { linear_per_k: 1e-9 / 70 },
    adev1s: [1e-12, 1e-12],
    floor: [1e-12, 1e-11],
    source: `${vig}; rest ${memory}`,
  },
  rubidium: {
    kind: "rubidium standard",
    accuracy: 5e-10,
    agingPerYear: [2e-10, 2e-10],
    temperature: { linear_per_k: 3e-10 / 70 },
    adev1s: [3e-12, 3e-11],
    floor: [1e-13, 1e-12],
    source: `${vig}; rest ${memory}`,
  },
  caesium: {
    kind: "caesium beam standard",
    accuracy: 2e-11,
    agingPerYear: [0, 0],
    temperature: { linear_per_k: 2e-11 / 70 },
    adev1s: [5e-12, 5e-11],
    floor: [1e-14, 1e-13],
    source: `${vig}; rest ${memory}`,
  },
  "steered-quartz": {
    kind: "oven quartz steered by satellite time",
    accuracy: 1e-12,
    agingPerYear: [0, 0],
    temperature: {},
    adev1s: [1e-12, 1e-11],
    floor: [1e-12, 1e-11],
    source: `kind: Lombardi, NCSLI Measure 3 (3), 56 (2008); sizes ${memory}`,
  },
};

/**
 * The middle of a typical range.
 *
 * @param range - its ends; >= 0
 * @returns their geometric mean. Exact case: equal ends
 */
export function typicalOf([least, greatest]: Range): number {
  return least === greatest ? least : Number(Math.sqrt(least * greatest).toPrecision(2));
}
