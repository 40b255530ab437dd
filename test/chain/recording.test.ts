import { describe, expect, it } from "vitest";
import { chooseRecording } from "../../src/chain/index.ts";
import { demo } from "./run-chain.ts";

const nothing = { ticks: false, bursts: false };

// The rule of the program itself: every burst up to a million of them, else what the counter looks at.
describe("chooseRecording", () => {
  it("takes every burst up to a million, and beyond only what is looked at", () => {
    const scenario = demo("station-dial");
    const at = (length: number) => chooseRecording(scenario, length, null, nothing).recording;
    expect([at(250_000), at(250_001)]).toEqual(["bursts", "lazy"]);
  });

  it("has no bursts to record where there is no drive", () => {
    const scenario = demo("school-laboratory");
    expect(chooseRecording(scenario, 100, null, nothing).recording).toBe("ticks");
    expect(chooseRecording(scenario, 100, "bursts", nothing).recording).toBe("ticks");
    expect(chooseRecording(scenario, 2e6, null, nothing).recording).toBe("lazy");
  });

  it("is forced to more by outputs, and says so", () => {
    const scenario = demo("station-dial");
    const wants = (ticks: boolean, bursts: boolean) =>
      chooseRecording(scenario, 1e7, null, { ticks, bursts });
    expect(wants(true, false)).toMatchObject({ recording: "ticks", forcedBy: expect.any(String) });
    expect(wants(true, true)).toMatchObject({ recording: "bursts", forcedBy: expect.any(String) });
    expect(chooseRecording(scenario, 10, null, { ticks: true, bursts: true })).toEqual({
      recording: "bursts",
      forcedBy: null,
    });
  });

  it("looks at every tick where bounces are counted, or a hold-off hides ticks", () => {
    const forced = (sets: readonly string[]) =>
      chooseRecording(demo("school-laboratory", sets), 1e7, null, nothing);
    const bounce = "clock.bounce={count: 1, within_s: 0.01}";
    expect(forced([bounce]).recording).toBe("ticks");
    expect(forced([bounce, "counter.holdoff_s=0.02"]).recording).toBe("lazy");
    expect(forced(["counter.holdoff_s=1.5"]).recording).toBe("ticks");
  });
});
