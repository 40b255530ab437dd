import { expect, it } from "vitest";
import { killedWatches } from "../../program/watch-killed.ts";

it("watch --log loses no line that was shown, killed at fifty random moments", async () => {
  expect(await killedWatches(50, 7)).toBe(50);
});
