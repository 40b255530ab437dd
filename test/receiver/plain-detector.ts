import { RandomStream } from "../../src/numeric/index.ts";
import type { ReceivedTone, ReceiverParameters } from "../../src/stages/receiver/index.ts";

/**
 * The circuit equation in many small steps: u' = (A·r − leak·u)/τ with noise, the tone taken at the middle
 * of a step, noise by its exact variance, and between two steps the probability that a Brownian bridge
 * touched the threshold (exp(−2·d₀·d₁/σ²dt), e.g. Siegmund 1985). Slow, and shares nothing with the product
 * but the deviates.
 */
export class PlainDetector {
  u = 0;
  outcome = "step";
  private readonly receiver: ReceiverParameters;
  private readonly tone: ReceivedTone;
  private readonly stream: RandomStream;
  private readonly stepsPerCycle: number;

  constructor(
    receiver: ReceiverParameters,
    tone: ReceivedTone,
    seed: string,
    stepsPerCycle: number,
  ) {
    this.receiver = receiver;
    this.tone = tone;
    this.stream = new RandomStream(seed, "plain");
    this.stepsPerCycle = stepsPerCycle;
    this.begin();
  }

  begin(): void {
    this.u = this.receiver.leak ? this.receiver.noiseV * this.stream.normal() : 0;
  }

  rest(dt: number): void {
    const { leak, timeConstant, noiseV } = this.receiver;
    if (!leak) return;
    const decay = Math.exp(-dt / timeConstant);
    this.u = this.u * decay + noiseV * Math.sqrt(1 - decay * decay) * this.stream.normal();
  }

  detect(phase: number, amplitude: number): number {
    const { leak, timeConstant, noiseV, thresholdV, rectifier } = this.receiver;
    const frequency = this.tone.carrierHz * (1 + this.tone.carrierFractionalOffset);
    const steps = Math.ceil(this.tone.burst * frequency * this.stepsPerCycle);
    const dt = this.tone.burst / steps;
    const ratio = dt / timeConstant;
    const keep = leak ? Math.exp(-ratio) : 1;
    const gain = leak ? 1 - keep : ratio;
    const variance = noiseV * noiseV * (leak ? 1 - keep * keep : 2 * ratio);
    const deviation = Math.sqrt(variance);
    if (!leak) this.u = 0;
    this.outcome = this.u >= thresholdV ? "blocked" : "missed";
    let u = this.u;
    let crossed = Number.NaN;
    for (let i = 0; i < steps; i++) {
      const sine = Math.sin(2 * Math.PI * (phase + frequency * (i + 0.5) * dt));
      const r = rectifier === "full" ? Math.abs(sine) : Math.max(0, sine);
      const before = u;
      u = u * keep + amplitude * r * gain + deviation * this.stream.normal();
      if (this.outcome === "missed") {
        const d0 = thresholdV - before;
        const d1 = thresholdV - u;
        const touch = d1 <= 0 ? 1 : variance > 0 ? Math.exp((-2 * d0 * d1) / variance) : 0;
        if (touch > 1e-9 && (touch === 1 || this.stream.uniform() < touch)) {
          crossed = (i + d0 / (d0 + Math.abs(d1))) * dt;
          this.outcome = "step";
        }
      }
    }
    this.u = u;
    return crossed;
  }
}
