import { describe, expect, it } from "vitest";
import { parseScenario, resolvedToJson } from "../../src/scenario/index.ts";
import { complaintsAbout, sample, sampleWith, warningsWith } from "./sample.ts";

const phaseNoise = (points: string) =>
  `reference.noise={ phase_noise: { carrier_hz: 10e6, dbc_hz: { ${points} } } }`;

describe("like: a class of oscillators", () => {
  // Sizes: Vig, Introduction to Quartz Frequency Standards (1992), table 1: rubidium 5e-10, 2e-10 a year.
  it("fills in what the section leaves open, and says where it comes from", () => {
    const { scenario, derived } = sampleWith("reference.like=rubidium", "reference.noise={}");
    const { reference } = scenario;
    expect(reference.uncertainty).toBe(5e-10);
    expect(reference.agingPerDay * 365.25).toBeCloseTo(2e-10, 12);
    expect(reference.noise.h0).toBeCloseTo(2 * 9.5e-12 ** 2, 24);
    expect(derived.map(({ path }) => path)).toContain("reference.noise.flicker_fm_adev");
    for (const { from } of derived) expect(from).toMatch(/typical of rubidium; .*Vig/);
  });

  it("lets every key be overridden, and leaves no trace once all are written", () => {
    const { scenario } = sampleWith(
      "reference={ nominal_hz: 10e6, like: ocxo, aging_per_day: 0, noise: { h: { h0: 1e-22 } } }",
    );
    expect(scenario.reference).toMatchObject({ agingPerDay: 0 });
    expect(scenario.reference.noise).toMatchObject({ h0: 1e-22, hMinus1: 0 });
    const again = parseScenario(JSON.stringify(resolvedToJson(scenario)), "again");
    expect(again).toEqual({ scenario, warnings: [], derived: [] });
  });

  it.each(["reference", "synthesizer", "receiver.fallback", "counter.timebase"])(
    "goes for %s, with a warning that it is no knowledge",
    (path) => {
      const set = path === "reference" ? ["reference.noise={}"] : [];
      const { derived } = sampleWith(...set, `${path}.like=tcxo`);
      expect(derived.map((entry) => entry.path)).toContain(`${path}.noise.flicker_fm_adev`);
      expect(warningsWith(...set, `${path}.like=tcxo`).join()).toMatch(`typical_values ${path}`);
    },
  );

  it("refuses a class that is none", () => {
    const [complaint] = complaintsAbout(sample, ["reference.like=rubidum"]);
    expect(complaint!.hint).toBe("did you mean rubidium?");
  });
});

describe("phase_noise", () => {
  // −80 dBc/Hz at 1 Hz of 10 MHz falling by 20 dB a decade is white FM of 1e-11 at 1 s (see test/noise/phase-noise-fit).
  it("becomes levels, told with how far each point is missed", () => {
    const { scenario, derived } = sampleWith(phaseNoise("1: -80, 10: -100, 100: -120"));
    expect(Math.sqrt(scenario.reference.noise.h0 / 2) / 1e-11).toBeCloseTo(1, 9);
    expect(derived).toContainEqual({
      path: "reference.noise.phase_noise.dbc_hz.10",
      value: -100,
      from: "dBc/Hz by the fit, 0 dB from the -100 given",
    });
  });

  it("says that it is extrapolated below its lowest point, unless a floor stands beside it", () => {
    const set = phaseNoise("1: -80, 10: -100");
    const code = "phase_noise_extrapolated reference.noise.phase_noise";
    expect(warningsWith(set)).toContain(code);
    expect(warningsWith(set, "reference.noise.flicker_fm_adev=1e-12")).not.toContain(code);
  });

  it("says which points no sum of power laws meets", () => {
    expect(warningsWith(phaseNoise("1: -60, 10: -150, 100: -150")).join()).toMatch(
      "phase_noise_missed reference.noise.phase_noise.dbc_hz.",
    );
  });

  it.each([
    ["10: -120", "must have two points at least"],
    ["10: -120, 100: -110", "rises from -120 dBc/Hz at 10 Hz to -110"],
    ["ten: -120, 100: -130", "must stand at an offset in Hz"],
    ["10: 120, 100: 110", "must be from -300 to -20 dBc/Hz, got 120"],
  ])("refuses %s: %s", (points, said) => {
    expect(complaintsAbout(sample, [phaseNoise(points)])[0]!.message).toContain(said);
  });
});

describe("what people know and no key can take", () => {
  it.each([
    ["rms_jitter_s", "says nothing of a clock's second"],
    ["peak_to_peak_jitter_s", "grows with the number of edges"],
  ])("refuses noise.%s with the reason", (key, said) => {
    const [complaint] = complaintsAbout(sample, [`reference.noise.${key}=1e-12`]);
    expect(complaint!.message).toContain(said);
  });
});

describe("amplitude_vrms", () => {
  it("is the amplitude over √2", () => {
    const { scenario, derived } = sampleWith("drive.amplitude_v=null", "drive.amplitude_vrms=8");
    expect(scenario.drive!.amplitudeV).toBeCloseTo(8 * Math.SQRT2, 12);
    expect(derived[0]!.path).toBe("drive.amplitude_v");
  });

  it("stands in place of amplitude_v, and one of them must stand", () => {
    expect(complaintsAbout(sample, ["drive.amplitude_vrms=8"])[0]!.message).toContain(
      "states the same",
    );
    expect(complaintsAbout(sample, ["drive.amplitude_v=null"])[0]).toMatchObject({
      path: "drive.amplitude_v",
      message: "is missing",
    });
  });
});
