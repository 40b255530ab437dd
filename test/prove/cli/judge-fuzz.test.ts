import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { printJudgement } from "../../../src/cli/index.ts";
import { judgeReadings } from "../../../src/judgement/index.ts";
import { readLog } from "../../../src/log/index.ts";
import { InputError } from "../../../src/readings/index.ts";
import { jsonText, judgeToJson } from "../../../src/view/table/index.ts";

const seed = 4181;

/** A table of readings with what goes wrong in one: gaps, stamps of any kind, a thermometer that fails. */
const table = fc
  .record({
    count: fc.integer({ min: 1, max: 30 }),
    spacing: fc.constantFrom(1, 10, 12.5),
    gate: fc.constantFrom(1, 10),
    stamp: fc.constantFrom("none", "iso", "iso_s", "mjd", "start_s", "time_s"),
    value: fc.constantFrom("period_s", "frequency_hz", "rate", "time_error_s"),
    jitter: fc.constantFrom(0, 1e-9, 1e-4, 0.03),
    faults: fc.array(
      fc.tuple(fc.nat(39), fc.constantFrom("gone", "blank", "cold", "far", "fallback")),
      { maxLength: 12 },
    ),
    touching: fc.constantFrom(undefined, true, false),
  })
  .map((t) => {
    const stampAt: Record<string, (s: number) => string> = {
      iso: (s) => new Date(1.9e12 + 1000 * s).toISOString(),
      iso_s: (s) => `${new Date(1.9e12 + 1000 * Math.floor(s)).toISOString().slice(0, 19)}Z`,
      mjd: (s) => (61000 + s / 86400).toFixed(9),
      start_s: String,
      time_s: (s) => s.toFixed(1),
      none: String,
    };
    const names: Record<string, string> = { iso: "time", iso_s: "time", none: "n" };
    const name = names[t.stamp] ?? t.stamp;
    const has = (i: number, fault: string) => t.faults.some(([k, f]) => k === i && f === fault);
    const lines = Array.from({ length: t.count }, (_, i) => i)
      .filter((i) => !has(i, "gone"))
      .map((i) => {
        const noise = t.jitter * Math.sin(i * i + 1) + (has(i, "far") ? 0.06 : 0);
        const of: Record<string, number> = {
          period_s: 1 + noise,
          frequency_hz: 1 / (1 + noise),
          rate: noise,
          time_error_s: noise,
        };
        const value = has(i, "blank") ? "" : String(of[t.value]);
        const warmth = has(i, "cold") ? "" : (20 + Math.sin(i / 3)).toFixed(3);
        return `${stampAt[t.stamp]!(i * t.spacing)},${value},${warmth},${has(i, "fallback") ? "slip fallback" : ""}`;
      });
    return { ...t, text: [`${name},${t.value},t_c,flag`, ...lines].join("\n") };
  });

describe("judging any record", () => {
  it("ends in a judgement without a number that is none, or in an error that says what is wrong", () => {
    fc.assert(
      fc.property(table, fc.boolean(), ({ text, gate, touching, value }, warm) => {
        try {
          const parsed = readLog(text, {
            file: "f",
            ...(value === "time_error_s" && warm ? {} : { nominalPeriod: 1 }),
            gate,
            ...(touching === undefined ? {} : { backToBack: touching }),
            ...(warm ? { temperature: "t_c" } : {}),
          });
          const judgement = judgeReadings(parsed.readings, {
            within: 1e-9,
            ahead: 1e5,
          });
          const told = printJudgement(judgement, parsed, 1e-9);
          expect(told).not.toMatch(/NaN|undefined|Infinity|\bnull\b|\b1 readings|the 1 breaks/);
          expect(() => JSON.parse(jsonText(judgeToJson(judgement)))).not.toThrow();
          for (const e of judgement.estimates) {
            // What is said to hold is a number with an interval around it; a record's rates lie within a tenth.
            if (!e.applies) continue;
            expect(e.interval95[0]).toBeLessThanOrEqual(e.rate);
            expect(e.interval95[1]).toBeGreaterThanOrEqual(e.rate);
            if (value !== "time_error_s") expect(Math.abs(e.rate)).toBeLessThan(0.12);
          }
        } catch (error) {
          if (error instanceof InputError) return;
          expect(error).toBeInstanceOf(RangeError);
          expect((error as Error).message).toMatch(/^regressTemperature: /);
        }
      }),
      { seed, numRuns: 40, endOnFailure: true },
    );
  });
});
