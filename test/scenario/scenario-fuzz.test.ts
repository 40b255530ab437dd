import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Simulation, settleRun } from "../../src/chain/index.ts";
import { readLog } from "../../src/log/index.ts";
import { InputError } from "../../src/readings/index.ts";
import { parseScenario, ScenarioError } from "../../src/scenario/index.ts";
import { demo, demos } from "./sample.ts";

const texts = demos.map(demo);
const odd = fc.constantFrom(
  ...[
    "1e308",
    "-1e308",
    "5e-324",
    ".nan",
    ".inf",
    "-0",
    "0",
    "-1",
    "1e15",
    "null",
    "yes",
    "[]",
    "{}",
  ],
  ...[
    "{__proto__: {x: 1}}",
    "{constructor: 1}",
    '"\\u0007"',
    "../../x",
    "*a",
    "&a 1",
    "[[[[[[[[[1]]]]]]]]]",
  ],
);

/** A demo with some of its lines spoilt, doubled or taken away. */
const spoilt = fc
  .tuple(
    fc.constantFrom(...texts),
    fc.array(fc.tuple(fc.nat(400), fc.nat(3), odd), { minLength: 1, maxLength: 3 }),
  )
  .map(([text, changes]) => {
    const lines = text.split("\n");
    for (const [at, how, value] of changes) {
      const i = at % lines.length;
      const line = lines[i]!;
      if (how === 0) lines.splice(i, 1);
      else if (how === 1) lines.splice(i, 0, line);
      else lines[i] = line.replace(/: [^,:{}]+/, () => `: ${value}`);
    }
    return lines.join("\n");
  });

describe("hostile input", () => {
  it("makes a scenario refused with a place, or one that runs", () => {
    let ran = 0;
    fc.assert(
      fc.property(spoilt, (text) => {
        try {
          const { scenario } = parseScenario(text, "x.yaml");
          const asked = { seed: "1", length: null, readings: 2, recording: null };
          const { options } = settleRun(scenario, {
            ...asked,
            wantsTicks: false,
            wantsBursts: false,
          });
          const simulation = new Simulation(scenario, options, { reading() {} });
          for (let i = 0; i < 20 && !simulation.run(16); i++);
          ran++;
        } catch (error) {
          if (!(error instanceof ScenarioError)) throw error;
          for (const { line, message } of error.complaints) {
            expect(line).toBeGreaterThan(0);
            expect(message).not.toBe("");
          }
        }
        expect(({} as { x?: number }).x).toBeUndefined();
      }),
      { seed: 61140, numRuns: 150, interruptAfterTimeLimit: 25_000 },
    );
    expect(ran).toBeGreaterThan(0);
  });

  it("makes readings refused in words, or read", () => {
    const cell = fc.oneof(
      fc.double().map(String),
      fc.constantFrom(
        "NaN",
        "inf",
        "1,5",
        "1e999",
        "-0",
        "",
        '"',
        "period_s",
        "rate",
        "__proto__",
        "\0",
      ),
      fc.string({ maxLength: 8, unit: "binary" }),
    );
    const text = fc
      .array(fc.tuple(fc.array(cell, { maxLength: 4 }), fc.constantFrom(",", ";", "\t", " ")), {
        maxLength: 12,
      })
      .map((rows) => rows.map(([cells, separator]) => cells.join(separator)).join("\n"));
    fc.assert(
      fc.property(text, (source) => {
        try {
          readLog(source, { file: "x.csv", nominalPeriod: 1, gate: 1, backToBack: true });
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.message).toMatch(/^x\.csv/);
        }
      }),
      { seed: 61141, numRuns: 400, interruptAfterTimeLimit: 20_000 },
    );
  });
});
