import { describe, expect, it } from "vitest";
import { RunRecord } from "../../src/chain/index.ts";
import { Reading } from "../../src/stages/counter/index.ts";

/** A reading of ten cycles in some ten seconds, the n-th of a run back to back. */
function reading(n: number): Reading {
  const r = new Reading();
  r.index = n;
  r.start.set(10 * n, 0);
  r.cycles = 10;
  r.interval = 10 + (n % 7);
  r.timeError = 0 - (n % 7);
  r.from.errorOverRun = n;
  r.to.errorOverRun = n + 1;
  r.from.steadyError = 2 * n;
  r.to.steadyError = 2 * n + 2;
  return r;
}

const gapless = { isTimeError: false, isRelative: false, isBackToBack: true };
const total = (column: Float64Array) => column.reduce((a, b) => a + b, 0);

// Exact law: joining neighbours adds up what they counted.
describe("RunRecord", () => {
  it("keeps readings one by one while there is room", () => {
    const record = new RunRecord(gapless, 16);
    for (let n = 0; n < 16; n++) record.add(reading(n));
    expect(record.joined).toBe(1);
    expect([...record.read().error]).toEqual(Array.from({ length: 16 }, (_, n) => 0 - (n % 7)));
  });

  it("joins neighbours beyond, and their cycles, intervals and errors stay what they were in all", () => {
    const record = new RunRecord(gapless, 16);
    for (let n = 0; n < 64; n++) record.add(reading(n));
    const columns = record.read();
    expect(record.joined).toBe(4);
    expect(columns.start.length).toBe(16);
    expect(total(columns.cycles)).toBe(640);
    expect(total(columns.interval) + total(columns.error)).toBe(640);
    expect(total(columns.errorOverRun)).toBe(64);
    expect([...columns.startErrorOverRun]).toEqual(Array.from({ length: 16 }, (_, i) => 4 * i));
    expect([...columns.start]).toEqual(Array.from({ length: 16 }, (_, i) => 40 * i));
  });

  it("leaves a group that is not complete out", () => {
    const record = new RunRecord(gapless, 16);
    for (let n = 0; n < 35; n++) record.add(reading(n));
    expect(record.joined).toBe(4);
    expect(record.read().start.length).toBe(8);
  });

  it("thins time errors", () => {
    const record = new RunRecord({ ...gapless, isTimeError: true }, 16);
    for (let n = 0; n < 40; n++) record.add(reading(n));
    const { start, error } = record.read();
    expect([...start].every((s) => s % 40 === 0)).toBe(true);
    expect([...error]).toEqual([...start].map((s) => 0 - ((s / 10) % 7)));
  });

  it("cannot join readings with dead time: it counts those that found no room", () => {
    const record = new RunRecord({ ...gapless, isBackToBack: false }, 16);
    for (let n = 0; n < 40; n++) record.add(reading(n));
    expect([record.read().start.length, record.leftOut]).toEqual([16, 24]);
  });

  it("relative to the reference, holds the setting error alone", () => {
    const record = new RunRecord({ ...gapless, isRelative: true }, 16);
    const r = reading(3);
    r.from.settingError = 0.25;
    r.to.settingError = 0.75;
    record.add(r);
    const { errorOverRun, steadyError, startErrorOverRun } = record.read();
    expect([errorOverRun[0], steadyError[0], startErrorOverRun[0]]).toEqual([0.5, 0.5, 0.25]);
  });
});
