import { describe, expect, it } from "vitest";
import { Instant, RandomStream } from "../../src/numeric/index.ts";
import { FallbackOscillator } from "../../src/stages/clock/index.ts";

const silent = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 0.5,
  flickerLongest: 1e8,
};

describe("FallbackOscillator", () => {
  it("ticks at the moment it takes over and then once a period of its own, exactly", () => {
    const parameters = { after: 1.5, fractionalOffset: -6.1e-5, noise: silent };
    const oscillator = new FallbackOscillator(parameters, 1, new RandomStream("f", "fallback"));
    const start = new Instant().set(1234.5, 0);
    oscillator.begin(start);
    expect(oscillator.next.minus(start)).toBe(0);
    oscillator.advance(1);
    oscillator.advance(9999);
    // f = f0·(1 + y): 10 000 of its periods last 10 000/(1 + y) s.
    expect(oscillator.next.minus(start)).toBeCloseTo(10000 / (1 - 6.1e-5), 9);
  });

  it("jumps as far as single steps go, and never past the moment asked for", () => {
    const parameters = { after: 1, fractionalOffset: 1e-4, noise: silent };
    const oscillator = new FallbackOscillator(parameters, 1, new RandomStream("f", "fallback"));
    oscillator.begin(new Instant());
    const wake = new Instant().set(500.2, 0);
    oscillator.advance(oscillator.periodsBefore(wake));
    expect(oscillator.next.isBefore(wake)).toBe(true);
    expect(wake.minus(oscillator.next)).toBeLessThan(3);
  });
});
