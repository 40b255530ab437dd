import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type LogOptions, LogReader, readLog } from "../../src/log/index.ts";
import type { NoteCode, PeriodReadings } from "../../src/readings/index.ts";

/**
 * Logs of one invented bench, made by a script that knows nothing of this program: a clock that loses 2.3e-8, a
 * reciprocal counter with a gate of ten seconds, back to back. `logs.json` tells what a person would say beside each.
 */
const folder = join(import.meta.dirname, "samples");
interface Sample {
  readonly file: string;
  readonly options: readonly string[];
  readonly true_rate: number;
}
const samples: readonly Sample[] = JSON.parse(readFileSync(join(folder, "logs.json"), "utf8"));
const bytesOf = (file: string) => new Uint8Array(readFileSync(join(folder, file)));

function optionsOf({ file, options }: Sample): LogOptions {
  const at = (name: string) => {
    const i = options.indexOf(name);
    return i < 0 ? undefined : Number(options[i + 1]);
  };
  const gate = at("--gate");
  return {
    file,
    nominalPeriod: at("--nominal-period")!,
    backToBack: options.includes("--back-to-back"),
    ...(gate === undefined ? {} : { gate }),
  };
}

/** What is to be told of each, as its lines show to the eye: code and line. */
const told: Readonly<Record<string, readonly (readonly [NoteCode, number])[]>> = {
  "hour-marks.txt": [
    ["skipped_line", 1],
    ["skipped_line", 361],
  ],
  "cut-off.txt": [["cut_line", 409]],
  "garbled.txt": [
    ["skipped_line", 61],
    ["skipped_line", 301],
  ],
  "two-runs.txt": [["repeated_header", 203]],
};
/** Readings in each, counted by the lines of the file. */
const counts: Readonly<Record<string, number>> = {
  "cut-off.txt": 408,
  "lines-lost.txt": 406,
  "line-doubled.txt": 410,
  "two-runs.txt": 349,
};

/** The numbers of a file in the plainest way there is: the last of each line, blanks within it taken out. */
function plainly(file: string): number[] {
  const text = readFileSync(join(folder, file), "utf8");
  return text.split("\n").flatMap((line) => {
    const isMilliseconds = line.endsWith("ms");
    const isHertz = line.endsWith("Hz");
    const bare = line.replace(/^.*(?:;|->|F=|",)/, "").replace(/(\d),(\d)/, "$1.$2");
    const cell =
      file === "iso-temperature.csv" || file === "whole-second-stamps.csv"
        ? line.split(",")[1]!
        : bare;
    const value = Number((cell ?? "").replace(/[ ",]|m?s$|Hz$/g, "") || "x");
    if (!(value > 0) || line.startsWith("#")) return [];
    return [isMilliseconds ? value / 1000 : isHertz ? 1 / value : value];
  });
}

describe("logs of a bench", () => {
  it("are all listed", () => {
    const there = readdirSync(folder).filter((name) => !/\.json$|README/.test(name));
    expect(samples.map(({ file }) => file).sort()).toEqual(there.sort());
  });

  it.each(samples.map((s) => [s.file, s] as const))("%s is read as it is", (file, sample) => {
    const { readings, notes } = readLog(bytesOf(file), optionsOf(sample));
    const { period, cycles, backToBack, kind } = readings as PeriodReadings;
    const there = [...period].filter((p) => !Number.isNaN(p));
    expect([kind, backToBack, there.length]).toEqual([
      "period",
      true,
      counts[file] ?? (file === "garbled.txt" ? 407 : 409),
    ]);
    const expected = plainly(file).slice(0, there.length);
    there.forEach((p, i) => void expect(Math.abs(p / expected[i]! - 1)).toBeLessThan(3e-16));
    expect(new Set(cycles.filter((c) => !Number.isNaN(c)))).toEqual(new Set([10]));
    expect(notes.map(({ code, line }) => [code, line])).toEqual(told[file] ?? []);
  });

  it("have stamps of any resolution, a temperature, and joins where they say so", () => {
    const read = (file: string) => {
      const sample = samples.find((s) => s.file === file)!;
      const { readings, detected } = readLog(bytesOf(file), optionsOf(sample));
      return { ...readings, detected };
    };
    const iso = read("iso-temperature.csv");
    expect(iso.stamps!.resolution).toBe(1e-6);
    expect(iso.stamps!.arrival[1]! - 9.99971).toBeCloseTo(0, 9);
    expect([...iso.temperature!.slice(0, 2)]).toEqual([21, 21]);
    expect(iso.detected).toBe(
      'period in s from column "period_s", 409 readings, stamps by date and time, temperature',
    );
    for (const file of ["terminal.txt", "whole-second-stamps.csv", "day-first-decimal-comma.csv"]) {
      const { stamps } = read(file);
      expect([stamps!.resolution, stamps!.arrival[0], stamps!.arrival[408]]).toEqual([1, 0, 4080]);
    }
    expect(read("quoted.csv").stamps!.resolution).toBe(0.01);
    expect(read("two-runs.txt").joins).toEqual([200]);
    // The hour marks are no readings; a garbled line keeps its place, for its time has passed.
    expect(read("garbled.txt").line!.length).toBe(409);
    expect(read("lines-lost.txt").line!.length).toBe(406);
  });

  it("are the same in pieces of any size, and while they grow", () => {
    for (const sample of samples) {
      const bytes = bytesOf(sample.file);
      const whole = readLog(bytes, optionsOf(sample));
      for (const size of [1, 7, 997]) {
        const reader = new LogReader(optionsOf(sample));
        for (let from = 0; from < bytes.length; from += size)
          reader.add(bytes.slice(from, from + size));
        if (size > 1) {
          const { readings } = reader.soFar();
          expect(readings.line).toEqual(whole.readings.line);
        }
        expect(reader.end()).toEqual(whole);
      }
    }
  });

  it("are the same in any encoding and with any line end", () => {
    const utf16 = (text: string, isBig: boolean, hasMark: boolean) => {
      const codes = [...(hasMark ? "\ufeff" : ""), ...text].map((c) => c.charCodeAt(0));
      return Uint8Array.from(codes.flatMap((c) => (isBig ? [c >> 8, c & 255] : [c & 255, c >> 8])));
    };
    for (const sample of samples) {
      const text = new TextDecoder().decode(bytesOf(sample.file));
      const whole = readLog(bytesOf(sample.file), optionsOf(sample));
      const forms: readonly (Uint8Array | string)[] = [
        `\ufeff${text}`,
        text.replaceAll("\n", "\r\n"),
        text.replaceAll("\n", "\r"),
        utf16(text, false, true),
        utf16(text, true, true),
        utf16(text, false, false),
        utf16(text.replaceAll("\n", "\r\n"), true, false),
        Uint8Array.from([...text].map((c) => c.charCodeAt(0) & 255)),
      ];
      for (const form of forms) {
        const { readings } = readLog(form, optionsOf(sample));
        expect(readings).toEqual(whole.readings);
      }
    }
  });
});
