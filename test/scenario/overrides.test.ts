import { describe, expect, it } from "vitest";
import { applyOverrides, complaintText, readOverride } from "../../src/scenario/index.ts";
import { complaintsAbout, sample, sampleWith } from "./sample.ts";

const said = (...sets: string[]) => complaintsAbout(sample, sets).map(complaintText);

describe("readOverride", () => {
  it.each([
    ["a=1e-9", ["a"], 1e-9],
    ["a.b.0=x", ["a", "b", "0"], "x"],
    [" a.b = [1, { c: 2 }]", ["a", "b"], [1, { c: 2 }]],
    ["a=b=c", ["a"], "b=c"],
    ["a='1'", ["a"], "1"],
    ["a=null", ["a"], null],
  ])("reads %s", (set, path, value) => {
    expect(readOverride(set)).toEqual({ name: `--set ${set}`, path, value });
  });
});

describe("applyOverrides", () => {
  it("leaves the value it is given as it was", () => {
    const value = { a: { b: 1 }, c: [1, 2] };
    const changed = applyOverrides(value, [readOverride("a.b=2"), readOverride("c.1=3")]);
    expect(changed).toEqual({ a: { b: 2 }, c: [1, 3] });
    expect(value).toEqual({ a: { b: 1 }, c: [1, 2] });
  });

  it("lets the last override of a key hold", () => {
    expect(applyOverrides({}, [readOverride("a=1"), readOverride("a=2")])).toEqual({ a: 2 });
  });

  it("changes one place of what an alias shares", () => {
    const shared = { x: 1 };
    const value = { a: shared, b: shared };
    expect(applyOverrides(value, [readOverride("a.x=2")])).toEqual({ a: { x: 2 }, b: { x: 1 } });
  });

  it("makes sections and lists that are missing or empty", () => {
    const sets = ["a.b.c=1", "d.0.e=2", "f.g=3"].map(readOverride);
    expect(applyOverrides({ f: null }, sets)).toEqual({
      a: { b: { c: 1 } },
      d: [{ e: 2 }],
      f: { g: 3 },
    });
  });

  it("takes away what is set to null", () => {
    const value = { a: { b: 1, c: 2 }, d: [1, 2, 3] };
    const sets = ["a.b=null", "d.1=null", "e=null"].map(readOverride);
    expect(applyOverrides(value, sets)).toEqual({ a: { c: 2 }, d: [1, 3] });
    expect(applyOverrides({}, ["a.b.c=null", "d.0=null"].map(readOverride))).toEqual({});
  });

  it("makes a key named like the prototype a key like any other", () => {
    const changed = applyOverrides({}, [readOverride("__proto__.x=1")]) as object;
    expect(Object.keys(changed)).toEqual(["__proto__"]);
    expect(Object.getPrototypeOf(changed)).toBe(Object.prototype);
    expect(({} as { x?: number }).x).toBeUndefined();
  });
});

describe("parseScenario with overrides", () => {
  it("changes values, list items and sections", () => {
    const { scenario } = sampleWith(
      "length_s=3000",
      "reference.noise.flicker_fm_adev=1e-12",
      "disturbances.0.at_s=120",
      "disturbances.2={ kind: extra_edge, at_s: 300 }",
      "counter.timebase=reference",
    );
    expect(scenario.length).toBe(3000);
    expect(scenario.reference.noise.hMinus1).toBeGreaterThan(0);
    expect(scenario.disturbances.map(({ kind, at }) => `${kind} ${at}`)).toEqual([
      "drive_off 120",
      "missed_step 200",
      "extra_edge 300",
    ]);
    expect(scenario.counter.timebase).toBe("reference");
    expect(sampleWith("receiver.fallback=null").scenario.clock.fallback).toBeNull();
  });

  it.each([
    ["nonsense", "--set nonsense: must have the form PATH=VALUE"],
    ["=3", "--set =3: must have the form PATH=VALUE"],
    ["a..b=3", "--set a..b=3: a..b: has an empty key in its path; write keys joined by dots"],
    ["length_s=null", "--set length_s=null: length_s: is missing; it is a number"],
    ["length_s=", "--set length_s=: length_s: has no value"],
    ["length_s={ a", "--set length_s={ a: length_s: is not YAML: Flow map must end with a }"],
    ["length_s=1_000", "1_000: length_s: must be a number, got the text"],
    ["length_s.x=3", "--set length_s.x=3: length_s.x: length_s is a value and has no keys"],
    ["disturbances.5.at_s=3", "disturbances is a list of 2; use an index from 0 to 2"],
    ["disturbances.x=3", "disturbances is a list of 2; use an index from 0 to 2"],
    ["disturbances.1.at_s=-1", "--set disturbances.1.at_s=-1: disturbances.1.at_s: must be >= 0"],
    ["reference.noise.x=1", "--set reference.noise.x=1: reference.noise.x: unknown key; known"],
    ["__proto__.x=1", "--set __proto__.x=1: __proto__: unknown key"],
    ["drive.burst_s=0.3", "--set drive.burst_s=0.3: drive.burst_s: is as long as the 0.2 s"],
    ["reference.noise.h.h0=1", "--set reference.noise.h.h0=1: reference.noise.h.h0: states the"],
  ])("refuses %s, and names the override", (set, message) => {
    const texts = said(set);
    expect(texts).toHaveLength(1);
    expect(texts[0]).toContain(message);
  });

  it("blames the override for what a section made by it lacks", () => {
    const bare = sample.replace(/^disturbances:[\s\S]*/m, "");
    const [first] = complaintsAbout(bare, ["disturbances.0.kind=missed_step"]);
    expect(first).toMatchObject({
      file: "--set disturbances.0.kind=missed_step",
      line: null,
      column: null,
      path: "disturbances.0.at_s",
    });
  });

  it("blames the file for what the file says", () => {
    const [first] = complaintsAbout(sample.replace("noise_v: 0.1", "noise_v: -1"), ["length_s=99"]);
    expect(first).toMatchObject({ file: "x.yaml", line: 18, column: 12, path: "receiver.noise_v" });
  });
});
