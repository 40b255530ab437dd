import { z } from "zod";
import { type FiveLevels, fitPhaseNoise, missOf, type PhaseNoisePoint } from "../noise/index.ts";
import { positive, short } from "./quantity.ts";
import type { KeyPath, SenseReport } from "./sense-report.ts";

export const phaseNoiseSchema = z
  .strictObject({
    carrier_hz: positive("Frequency of the carrier that the points are of; Hz"),
    dbc_hz: z
      .record(z.string(), z.number())
      .meta({ description: "Points L(f): level in dBc/Hz by offset from the carrier; Hz" }),
  })
  .meta({ description: "Single-sideband phase noise as a data sheet gives it (IEEE Std 1139)" });

type PhaseNoise = z.output<typeof phaseNoiseSchema>;

/** A point missed by more than this deserves a word; dB. */
const largeMiss = 3;
const levelNames = ["h2", "h1", "h0", "h_minus_1", "h_minus_2"] as const;

/**
 * The points of a section, lowest offset first; what no power law can pass through is refused.
 *
 * @param section - as written
 * @param path - where it stands
 * @param report - where faults go
 */
function pointsOf({ dbc_hz }: PhaseNoise, path: KeyPath, report: SenseReport): PhaseNoisePoint[] {
  const at = (key: string) => [...path, "dbc_hz", key];
  const written = Object.entries(dbc_hz).map(([key, level]) => ({ key, f: Number(key), level }));
  const points = written.sort((a, b) => a.f - b.f);
  if (points.length < 2) {
    report.fault(
      [...path, "dbc_hz"],
      "must have two points at least",
      "write { 1: -90, 10: -120 }",
    );
  }
  points.forEach(({ key, f, level }, i) => {
    if (!(f >= 1e-6 && f <= 1e12)) {
      report.fault(at(key), "must stand at an offset in Hz, from 1e-6 to 1e12", "such as 10: -120");
    } else if (!(level <= -20 && level >= -300)) {
      report.fault(at(key), `must be from -300 to -20 dBc/Hz, got ${level}`);
    } else if (i > 0 && level > points[i - 1]!.level) {
      const before = points[i - 1]!;
      report.fault(
        at(key),
        `rises from ${before.level} dBc/Hz at ${before.key} Hz to ${level}: noise of oscillators falls or stays (f^0 to f^-4)`,
        "leave out spurious lines and the bump of a loop",
      );
    }
  });
  return points;
}

/**
 * The levels that phase noise asks for.
 *
 * @param section - as written
 * @param path - where it stands
 * @param report - where faults go; after one the levels are 0
 * @returns h₂ to h₋₂
 */
export function resolvePhaseNoise(
  section: PhaseNoise,
  path: KeyPath,
  report: SenseReport,
): FiveLevels {
  const faults = report.faults.length;
  const points = pointsOf(section, path, report);
  return report.faults.length > faults
    ? [0, 0, 0, 0, 0]
    : fitPhaseNoise(points, section.carrier_hz);
}

/**
 * Tells what became of points: the levels, and how far they miss each.
 *
 * @param section - as written
 * @param levels - in use: keys beside the points may have replaced some of those fitted
 * @param isAnchored - whether a key beside the points says how the oscillator behaves in the long run
 * @param path - where the section stands
 * @param report - where notes and warnings go
 */
export function tellOfPhaseNoise(
  section: PhaseNoise,
  levels: FiveLevels,
  isAnchored: boolean,
  path: KeyPath,
  report: SenseReport,
): void {
  const points = pointsOf(section, path, report);
  levels.forEach((level, j) => {
    if (level === 0) return;
    const from = "fitted to phase_noise by S_y = (f/f0)^2·2·10^(L/10); IEEE Std 1139";
    report.derive([...path.slice(0, -1), "h", levelNames[j]!], level, from);
  });
  for (const point of points) {
    const miss = missOf(levels, point, section.carrier_hz);
    const key = [...path, "dbc_hz", String(point.f)];
    const found = Number((point.level + miss).toFixed(2));
    const by = Number(miss.toFixed(2));
    const text = `dBc/Hz by the fit, ${by > 0 ? "+" : ""}${by} dB from the ${point.level} given`;
    report.derive(key, found, text);
    if (Math.abs(miss) <= largeMiss) continue;
    report.warn(
      "phase_noise_missed",
      key,
      `is missed by ${short(miss)} dB: no sum of power laws comes nearer`,
    );
  }
  const [lowest] = points;
  if (isAnchored || lowest === undefined) return;
  report.warn(
    "phase_noise_extrapolated",
    path,
    `begins at ${lowest.f} Hz: for averages over more than ${short(1 / (2 * Math.PI * lowest.f))} s its laws are only extrapolated; a flicker_fm_adev beside it, from the Allan deviation of the data sheet, replaces them there`,
  );
}
