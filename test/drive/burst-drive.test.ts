import { describe, expect, it } from "vitest";
import { Instant, RandomStream } from "../../src/numeric/index.ts";
import type { DriveParameters } from "../../src/stages/drive/index.ts";
import { BurstDrive, burstEnvelope } from "../../src/stages/drive/index.ts";

const parameters: DriveParameters = {
  carrierHz: 1370.1234567,
  carrierFractionalOffset: 3.7e-6,
  carrierLock: "free",
  burst: 0.06,
  envelope: burstEnvelope(0.06, 0),
  amplitudeV: 12,
  amplitudeNoise: 0.02,
  dropProbability: 0.1,
};
const make = (changes: Partial<DriveParameters> = {}, seed = "drive-1") =>
  new BurstDrive({ ...parameters, ...changes }, new RandomStream(seed, "drive"));

/** A double as an integer over 2^200, exactly. */
const exact = (x: number) => {
  let scaled = x;
  let shift = 200;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    shift--;
  }
  return BigInt(scaled) << BigInt(shift);
};

describe("BurstDrive", () => {
  it.each(["free", "locked"] as const)(
    "gives the phases of a row as one by one: %s",
    (carrierLock) => {
      const drive = make({ carrierLock });
      const moments = [
        [0, 0],
        [0, 0.2],
        [0, 0.4],
        [7, 0.9],
        [8, 0.1],
        [1e9, 0.3],
        [1e9, 0.5],
      ] as const;
      const column = (of: 0 | 1) => Float64Array.from(moments, (moment) => moment[of]);
      const out = new Float64Array(moments.length);
      drive.phases(column(0), column(1), moments.length, out);
      moments.forEach(([whole, fraction], i) => {
        expect(out[i]).toBe(drive.phaseAt(new Instant().set(whole, fraction)));
      });
    },
  );

  it("keeps the phase of the tone over 1e9 s (against exact integer arithmetic)", () => {
    const drive = make();
    const start = new Instant().set(0, 0);
    const zero = drive.phaseAt(start);
    const offsetHz = parameters.carrierHz * parameters.carrierFractionalOffset;
    const frequency = exact(parameters.carrierHz) + exact(offsetHz);
    for (const [whole, fraction] of [
      [1, 0.25],
      [86399, 0.7182818],
      [1e9, 0.1],
      [999999937, 0.999999],
    ] as const) {
      const phase = drive.phaseAt(new Instant().set(whole, fraction)) - zero;
      const turns = frequency * (exact(whole) + exact(fraction));
      const part = BigInt.asUintN(400, turns);
      const expected = Number(part >> 348n) / 2 ** 52;
      const difference = phase - expected;
      expect(Math.abs(difference - Math.round(difference))).toBeLessThan(2e-12);
    }
  });

  it("starts free tones at a phase of the run's own, uniform over runs", () => {
    // Mean of 400 uniform deviates: 5 σ = 5/√(12·400).
    let sum = 0;
    const start = new Instant().set(0, 0);
    for (let i = 0; i < 400; i++) sum += make({}, `seed ${i}`).phaseAt(start);
    expect(Math.abs(sum / 400 - 0.5)).toBeLessThan(5 / Math.sqrt(12 * 400));
  });

  it("begins every burst of a locked tone at phase zero", () => {
    const drive = make({ carrierLock: "locked" });
    expect(drive.phaseAt(new Instant().set(12345, 0.678))).toBe(0);
  });

  it("draws amplitudes with the mean and deviation asked for", () => {
    const drive = make();
    const n = 20000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const x = drive.drawAmplitude() / 12 - 1;
      sum += x;
      squares += x * x;
    }
    // 5 σ of the mean and of the variance of n Gaussian deviates.
    expect(Math.abs(sum / n)).toBeLessThan((5 * 0.02) / Math.sqrt(n));
    expect(Math.abs(squares / n / 0.02 ** 2 - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
  });

  it("never draws an amplitude below zero", () => {
    const drive = make({ amplitudeNoise: 2 });
    const drawn = Array.from({ length: 1000 }, () => drive.drawAmplitude());
    expect(Math.min(...drawn)).toBe(0);
  });

  it("drops bursts with the probability asked for", () => {
    const drive = make();
    const n = 20000;
    let dropped = 0;
    for (let i = 0; i < n; i++) if (drive.drawDrop()) dropped++;
    // 5 σ of a binomial count.
    expect(Math.abs(dropped - 0.1 * n)).toBeLessThan(5 * Math.sqrt(n * 0.1 * 0.9));
  });

  it("takes nothing from the stream where there is nothing to draw", () => {
    const stream = new RandomStream("drive-2", "drive");
    const twin = new RandomStream("drive-2", "drive");
    const drive = new BurstDrive({ ...parameters, amplitudeNoise: 0, dropProbability: 0 }, stream);
    twin.uniform();
    expect(drive.drawAmplitude()).toBe(12);
    expect(drive.drawDrop()).toBe(false);
    expect(stream.word()).toBe(twin.word());
  });
});
