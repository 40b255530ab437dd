import type { NoiseLevels } from "../../noise/index.ts";

/** How the rate of an oscillator follows its temperature: y = linear·(T−T₀) + parabolic·(T−T₀)². */
export interface TemperatureCoefficients {
  /** Linear coefficient; 1/K. */
  readonly linearPerK: number;
  /** Parabolic coefficient; 1/K². */
  readonly parabolicPerK2: number;
  /** Turnover temperature T₀; °C. */
  readonly turnoverC: number;
}

/** The one environment all oscillators of a scenario stand in. */
export interface Environment {
  /** Mean temperature at the start of the run; °C. */
  readonly meanC: number;
  /** Amplitude of the daily cycle; K, >= 0. */
  readonly dailyAmplitudeK: number;
  /** When the daily cycle peaks, after the start of the run; s. */
  readonly dailyPeak: number;
  /** Steady drift of the mean; K/day. */
  readonly rampKPerDay: number;
}

/** An oscillator: y(t) = offset + ageing·t + temperature + noise, about its nominal frequency. */
export interface OscillatorParameters {
  /** Nominal frequency; Hz, > 0. */
  readonly nominalHz: number;
  /** Fractional frequency offset f/f₀ − 1 at the start of the run; dimensionless. */
  readonly fractionalOffset: number;
  /** Half-width of the bound within which the offset is known, where one is stated; dimensionless. */
  readonly uncertainty?: number | undefined;
  /** Ageing; 1/day. */
  readonly agingPerDay: number;
  readonly temperature: TemperatureCoefficients;
  readonly noise: NoiseLevels;
}
