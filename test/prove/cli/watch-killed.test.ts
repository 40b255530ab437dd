import { expect, it } from "vitest";
import { killedWatches } from "../../program/watch-killed.ts";

it("watch --log loses no line that was shown, killed at fifty random moments", async () => {
  // A log for every five, so that none grows long.
  let held = 0;
  for (let seed = 1; seed <= 10; seed++) held += await killedWatches(5, seed);
  expect(held).toBe(50);
});
