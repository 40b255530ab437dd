import { describe, expect, it } from "vitest";
import { RunRecord, Simulation, settleRun } from "../../src/chain/index.ts";
import { judgeReadings } from "../../src/judgement/index.ts";
import { expectedRecord, runReadings } from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { observatory, school, twoKelvinWarm } from "./scenario-of.ts";

/** Whether a simulated record agrees with what a scenario lets it show. */
function agreement(simulated: Scenario, expectedOf: Scenario, seed: string) {
  const record = RunRecord.of(simulated);
  const request = {
    seed,
    length: null,
    readings: null,
    recording: null,
    wantsTicks: false,
    wantsBursts: false,
  } as const;
  const simulation = new Simulation(simulated, settleRun(simulated, request).options, {
    reading: (reading) => record.add(reading),
  });
  simulation.run();
  const expected = expectedRecord(expectedOf);
  if (typeof expected === "string") throw new Error(expected);
  const readings = runReadings(simulated, record.read());
  return judgeReadings(readings, { expected, systematicBound: 1e-12 }).agreement!;
}

const pausing = observatory((scenario) => {
  scenario.counter.deadTime = 1;
});
const short = school((scenario) => {
  (scenario as { length: number }).length = 300;
});

describe("what a scenario lets a record show", () => {
  it.each([
    ["an observatory back to back", observatory()],
    ["an observatory with dead time", pausing],
    ["white PM alone", short],
  ])("is what the simulator shows: %s", (_, scenario) => {
    for (const seed of ["expected-1", "expected-2"]) {
      expect(agreement(scenario, scenario, seed)).toMatchObject({ noise: true, rate: true });
    }
  });

  it("is not what a noisier receiver shows, nor a clock that is fast", () => {
    const noisier = observatory((scenario) => {
      scenario.receiver!.noiseV = 0.6;
    });
    expect(agreement(noisier, observatory(), "expected-4").noise).toBe(false);
    const fast = observatory((scenario) => {
      scenario.reference.fractionalOffset = 1e-6;
    });
    expect(agreement(fast, observatory(), "expected-5")).toMatchObject({
      noise: true,
      rate: false,
    });
  });

  it("has the levels of a plain chain: trigger noise, and a twelfth of the resolution squared", () => {
    const plain = school((scenario) => {
      scenario.counter.triggerNoise = 3e-4;
      scenario.counter.resolution = 1e-3;
      scenario.reference.fractionalOffset = 2e-6;
    });
    // JCGM 100:2008, F.2.2.1: rounding has the variance q²/12.
    const edge = Math.sqrt(1e-3 ** 2 + 3e-4 ** 2 + 1e-3 ** 2 / 12);
    const { levels, rate } = expectedRecord(plain) as Exclude<
      ReturnType<typeof expectedRecord>,
      string
    >;
    expect(levels.whitePm).toBeCloseTo(edge, 8);
    expect([levels.whiteFm, levels.flickerFm, levels.randomWalkFm]).toEqual([0, 0, 0]);
    expect(rate).toBeCloseTo(2e-6, 15);
  });

  it("is nothing where the rate changes by itself, or the drive is disturbed", () => {
    const warming = twoKelvinWarm(0, 1e-5);
    expect(
      expectedRecord({ ...warming, environment: { ...warming.environment, rampKPerDay: 10 } }),
    ).toMatch(/changes with temperature/);
    const off = { kind: "drive_off", at: 10, for: 5 } as unknown as Scenario["disturbances"][0];
    expect(expectedRecord({ ...observatory(), disturbances: [off] })).toMatch(/disturbs its drive/);
  });
});
