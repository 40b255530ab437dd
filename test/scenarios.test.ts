/**
 * Each demo, run with the seed it is written with, gives the readings it gave when its digest was stored.
 *
 * The digests are no outside values: they show that readings do not change unawares, not that they are right
 * (the tests of the rooms do that), and that they are the same bytes on every machine and version of Node.
 * A digest may change when a scenario file changes, or when a model, the order of its draws or the text of
 * readings.csv is changed on purpose; it never may for speed, tidiness, or a newer Node. Then, and with the
 * reason in the commit message: UPDATE_DIGESTS=1 npm run vitest -- test/scenarios.test.ts
 */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import { Simulation, settleRun } from "../src/chain/index.ts";
import { parseScenario } from "../src/scenario/index.ts";
import { readingsRows } from "../src/view/table/index.ts";

const scenarios = new URL("../scenarios/", import.meta.url);
const storage = new URL("./reference/demo-digests.json", import.meta.url);
const isUpdating = process.env.UPDATE_DIGESTS === "1";

const stored: Record<string, string> = JSON.parse(readFileSync(storage, "utf8"));
const found: Record<string, string> = {};
const names = readdirSync(scenarios)
  .filter((name) => name.endsWith(".yaml"))
  .sort();

function digestOf(name: string): string {
  const text = readFileSync(new URL(name, scenarios), "utf8");
  const { scenario, warnings } = parseScenario(text, name);
  expect(warnings).toEqual([]);
  expect(scenario.seed).not.toBeNull();
  const { options } = settleRun(scenario, {
    seed: scenario.seed!,
    length: null,
    readings: null,
    recording: null,
    wantsTicks: false,
    wantsBursts: false,
  });
  const hash = createHash("sha256");
  const { technique, displayDigits } = scenario.counter;
  const rows = readingsRows(
    (piece) => hash.update(piece),
    technique === "time_interval",
    displayDigits,
  );
  new Simulation(scenario, options, { reading: rows.take }).run();
  rows.flush();
  expect(rows.count()).toBeGreaterThan(100);
  return hash.digest("hex");
}

describe("each demo gives the readings it always gave", () => {
  it.each(names)(
    "%s",
    (name) => {
      found[name] = digestOf(name);
      if (!isUpdating) expect(found[name]).toBe(stored[name]);
    },
    60_000,
  );

  it("and no digest is kept of a demo that is gone", () => {
    if (!isUpdating) expect(Object.keys(stored).sort()).toEqual(names);
  });

  afterAll(() => {
    if (isUpdating) writeFileSync(storage, `${JSON.stringify(found, null, 2)}\n`);
  });
});
