import { describe, expect, it } from "vitest";
import { boundaryModes, componentLikelihood, estimateRates, fitNoise, fittedScenario } from "../../../src/judgement/index.ts";
import type { PeriodReadings } from "../../../src/readings/index.ts";
import { parseScenario } from "../../../src/scenario/index.ts";
import {
  backToBackRecord,
  deadTimeRecord,
  simulated,
} from "../../analysis/rate/coverage-harness.ts";
import { type MadeNoise, makeEdges } from "../../analysis/rate/power-law-noise.ts";

const day = 86400;

/** The same levels in the units of a scenario: intervals of 10 s, unit 1e-7 (IEEE Std 1139, Allan variances). */
function known(noise: MadeNoise) {
  const [unit, interval] = [1e-7, 10];
  return {
    edgeJitter: unit * interval * Math.sqrt(noise.measurement ?? 0),
    // S_x = level/f of the made noise is h₁/(4π²f).
    flickerPm: 4 * Math.PI ** 2 * (unit * interval) ** 2 * (noise.flickerPm ?? 0),
    whiteFm: unit * Math.sqrt((noise.whiteFm ?? 0) * interval),
    flickerFm: unit * Math.sqrt(2 * Math.LN2 * (noise.flickerFm ?? 0)),
    randomWalkFm: unit * Math.sqrt((noise.randomWalkFm ?? 0) / (3 * interval)),
    agingPerDay: ((noise.drift ?? 0) * unit * day) / interval,
    fractionalOffset: 2e-6,
  };
}

describe("fitNoise", () => {
  it.each([
    ["white PM", { measurement: 1 }],
    ["white FM", { measurement: 1, whiteFm: 0.3 }],
    ["flicker FM", { measurement: 1, flickerFm: 0.2 }],
    ["random-walk FM", { measurement: 1, randomWalkFm: 0.01 }],
    ["flicker PM", { measurement: 0.3, flickerPm: 1 }],
    ["all and ageing", { measurement: 3, whiteFm: 0.5, randomWalkFm: 1e-3, drift: 2e-3 }],
  ] as [string, MadeNoise][])(
    "gives the parameters back within their intervals: %s",
    (name, noise) => {
      const runs = 8;
      const truth = known(noise);
      const held = {
        edgeJitter: 0,
        flickerPm: 0,
        whiteFm: 0,
        flickerFm: 0,
        randomWalkFm: 0,
        agingPerDay: 0,
        fractionalOffset: 0,
      };
      for (let s = 0; s < runs; s++) {
        const fit = fitNoise(backToBackRecord(200, noise, `fit ${name} ${s}`).readings);
        for (const key of Object.keys(held) as (keyof typeof held)[]) {
          const { low, high } = fit[key]!;
          if (low <= truth[key] && truth[key] <= high) held[key]++;
        }
      }
      // At 95 % fewer than 5 of 8 happen by chance in 4 of 10 000 parameters.
      for (const count of Object.values(held)) expect(count).toBeGreaterThanOrEqual(5);
    },
    20000,
  );

  it.each([
    ["edgeJitter", { measurement: 1 }],
    ["whiteFm", { measurement: 1e-4, whiteFm: 1 }],
    ["flickerFm", { measurement: 1e-4, flickerFm: 1 }],
    ["randomWalkFm", { measurement: 1e-4, randomWalkFm: 1 }],
    ["flickerPm", { measurement: 1e-4, flickerPm: 1 }],
  ] as const)(
    "finds the size of a noise that makes nearly all of the scatter: %s",
    (key, noise) => {
      const fit = fitNoise(backToBackRecord(600, noise, `fit size ${key}`).readings);
      // A deviation from 600 values is known to 1/√1200 = 2.9 %, 4 σ = 12 %; a level (h₁) to twice that.
      const allowed = key === "flickerPm" ? 0.24 : 0.12;
      expect(Math.abs(fit[key]!.value / known(noise)[key] - 1)).toBeLessThan(allowed);
    },
  );

  it("gives back the flicker PM and the trigger noise of a simulated chain", () => {
    const h1 = 4e-11;
    const trigger = 1e-6;
    const { scenario } = parseScenario(
      JSON.stringify({
        title: "Flicker PM",
        length_s: 1e4,
        clock: { tick_hz: 1 },
        // The band ends at half the rate of the readings, so that nothing faster adds to the jitter.
        reference: { nominal_hz: 1, noise: { h: { h1 }, bandwidth_hz: 0.05 } },
        counter: {
          input: "clock",
          timebase: { fractional_offset: 0 },
          technique: "reciprocal",
          gate_s: 9.5,
          trigger_noise_s: trigger,
        },
      }),
      "flicker-pm.json",
    );
    const runs = 6;
    let shown = 0;
    let held = 0;
    for (let s = 0; s < runs; s++) {
      const { flickerPm, edgeJitter } = fitNoise(simulated(scenario, 1000, `chain ${s}`).readings);
      if (flickerPm!.low > 0) shown++;
      if (flickerPm!.low <= h1 && h1 <= flickerPm!.high) held++;
      if (edgeJitter!.low <= trigger && trigger <= edgeJitter!.high) held++;
    }
    expect(shown).toBe(runs);
    // At 95 % fewer than 9 of 12 happen by chance twice in a thousand.
    expect(held).toBeGreaterThanOrEqual(9);
  }, 60000);

  it("does not take white FM above white PM for flicker PM", () => {
    const shown = Array.from({ length: 8 }, (_, s) =>
      fitNoise(backToBackRecord(200, { measurement: 1, whiteFm: 0.3 }, `no flicker ${s}`).readings),
    ).filter((fit) => fit.flickerPm!.value > 0);
    // At 5 % more than 2 of 8 happen by chance in 6 of a thousand.
    expect(shown.length).toBeLessThanOrEqual(2);
  }, 20000);

  it("scales with the noise", () => {
    const { readings } = backToBackRecord(100, { measurement: 1, whiteFm: 1 }, "scale");
    const period = (readings as PeriodReadings).period;
    const once = fitNoise(readings);
    const thrice = fitNoise({
      ...(readings as PeriodReadings),
      period: period.map((p) => 1 + 3 * (p - 1)),
    });
    expect(thrice.edgeJitter!.value / once.edgeJitter!.value).toBeCloseTo(3, 1);
    expect(thrice.whiteFm!.high / once.whiteFm!.high).toBeCloseTo(3, 1);
  });

  it("says what cannot be told apart, and what is only a limit", () => {
    const jitter = fitNoise(backToBackRecord(200, { measurement: 1 }, "notes").readings);
    expect(jitter.flickerFm.low).toBe(0);
    expect(jitter.notes.join("; ")).toMatch(
      /cannot be told apart.*flicker FM does not show.*ageing does not/,
    );
    // Little white FM under the jitter: what the scenario has is said not to be known as a limit alone.
    const uncertain = ["a", "b", "c", "d", "e", "f"].map((seed) => {
      const { whiteFm, notes } = fitNoise(
        backToBackRecord(60, { measurement: 1, whiteFm: 0.05 }, `note ${seed}`).readings,
      );
      const said = notes.find((note) => note.startsWith("white FM "));
      if (whiteFm!.low > 0) expect(said).toBeUndefined();
      else if (whiteFm!.value === 0) expect(said).toMatch(/only its upper limit is known/);
      else expect(said).toMatch(/the scenario has its likeliest level, which may be none/);
      return whiteFm!.value > 0 && whiteFm!.low === 0;
    });
    expect(uncertain).toContain(true);
    const apart = fitNoise(deadTimeRecord(200, { reading: 1 }, "notes").readings);
    expect([apart.edgeJitter, apart.whiteFm]).toEqual([null, null]);
    // One reading scatters by 1e-7; 20 % is 4 standard deviations of a level from 200.
    expect(Math.abs(apart.readingNoise!.value / 1e-7 - 1)).toBeLessThan(0.2);
    expect(apart.notes[0]).toMatch(/dead time/);
  });

  it("throws RangeError for too few readings and for none that differ", () => {
    const { readings } = backToBackRecord(10, { measurement: 1 }, "few");
    expect(() => fitNoise(readings)).toThrow(/at least 20/);
    const period = new Float64Array(30).fill(1);
    const cycles = new Float64Array(30).fill(10);
    expect(() => fitNoise({ ...(readings as PeriodReadings), period, cycles })).toThrow(
      /must scatter/,
    );
  });
});

describe("componentLikelihood", () => {
  it("is greatest for one noise alone where its level is the mean of what it explains", () => {
    const modes = boundaryModes(makeEdges(80, { measurement: 2 }, "peak").measured);
    const at = (level: number) => componentLikelihood(modes, [level, 0, 0, 0, 0]).log;
    let best = 0.5;
    for (let level = 0.5; level < 5; level *= 1.002) if (at(level) > at(best)) best = level;
    // ln L = −½(n ln θ + Q/θ) with n = K − 2 once rate, offset and drift are fitted: θ = Q/(K − 2).
    const fallOff = at(best) - at(2 * best);
    expect(fallOff).toBeCloseTo(-0.5 * 78 * (-Math.LN2 + 0.5), 1);
  });

  it("is −Infinity where nothing makes the scatter", () => {
    const modes = boundaryModes(makeEdges(20, { measurement: 1 }, "nothing").measured);
    expect(componentLikelihood(modes, [0, 0, 0, 0, 0]).log).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe("fittedScenario", () => {
  it.each([
    ["back to back", backToBackRecord(60, { measurement: 1, whiteFm: 0.3 }, "s").readings],
    ["with dead time", { ...deadTimeRecord(60, { reading: 1 }, "s").readings, deadTime: 5 }],
    [
      "time errors",
      {
        kind: "time_error",
        timeError: makeEdges(60, { measurement: 1 }, "s").measured,
        spacing: 10,
      },
    ],
  ] as const)("is a scenario that holds: %s", (_, readings) => {
    const object = fittedScenario(fitNoise(readings), readings, "Fitted");
    const { scenario } = parseScenario(JSON.stringify(object), "fitted.json");
    expect(scenario.title).toBe("Fitted");
    expect(scenario.counter.triggerNoise).toBeGreaterThan(0);
    expect(scenario.counter.deadTime).toBe("deadTime" in readings ? 5 : 0);
  });

  it("has the gate of the usual reading, whatever edges were missed in one", () => {
    const { readings } = backToBackRecord(60, { measurement: 1 }, "missed");
    if (readings.kind !== "period") throw new Error("expected periods");
    const cycles = readings.cycles.slice();
    cycles[30] = 500;
    const { counter } = fittedScenario(fitNoise(readings), { ...readings, cycles }, "Missed");
    // Ten cycles of 1 s: the gate ends at the first edge after 9.5 s.
    expect(counter.gate_s).toBe(9.5);
  });

  it("ages only where ageing shows, and else keeps the mean rate of the record", () => {
    const steady = backToBackRecord(400, { measurement: 1 }, "steady").readings;
    const { reference } = fittedScenario(fitNoise(steady), steady, "Steady");
    expect(reference).not.toHaveProperty("aging_per_day");
    // End to end the record knows its own rate; 400 readings of 10 s, so that half an end edge is 1/800 of a reading.
    const [, ends] = estimateRates(steady);
    expect(Math.abs(reference.fractional_offset - ends!.rate)).toBeLessThan(
      0.01 * ends!.standardUncertainty,
    );
    const drifting = backToBackRecord(400, { measurement: 1, drift: 1e-3 }, "drifting").readings;
    const fit = fitNoise(drifting);
    expect(fittedScenario(fit, drifting, "Drifting").reference).toMatchObject({
      fractional_offset: fit.fractionalOffset.value,
      aging_per_day: fit.agingPerDay.value,
    });
  });

  it("has the flicker PM found, and nothing faster than the readings", () => {
    const { readings } = backToBackRecord(1000, { flickerPm: 1, measurement: 1 }, "h1");
    const fit = fitNoise(readings);
    const { scenario } = parseScenario(
      JSON.stringify(fittedScenario(fit, readings, "Fitted")),
      "fitted.json",
    );
    expect(scenario.reference!.noise.h1).toBe(fit.flickerPm!.value);
    expect(scenario.reference!.noise.h1).toBeGreaterThan(0);
    expect(scenario.reference!.noise.bandwidthHz).toBe(0.05);
  });
});
