/** What a plain detector is set to; as the keys of a scenario say it, in V and s. */
export interface PlainSettings {
  readonly rectifier: "full" | "half";
  readonly timeConstant: number;
  readonly leak: boolean;
  readonly thresholdV: number;
  readonly noiseV: number;
  readonly carrierHz: number;
  readonly burst: number;
  readonly rise: number;
}

/** Deviates for tests: a Weyl sequence through the finaliser of MurmurHash3 (32 bits), and Box-Muller. */
export class PlainDeviates {
  private state = 0;
  private spare = Number.NaN;

  constructor(seed: string) {
    for (let i = 0; i < seed.length; i++) {
      this.state = Math.imul(this.state ^ seed.charCodeAt(i), 0x01000193);
      this.uniform();
    }
  }

  uniform(): number {
    this.state = (this.state + 0x9e3779b9) | 0;
    let x = this.state;
    x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return (((x ^ (x >>> 16)) >>> 0) + 0.5) / 2 ** 32;
  }

  normal(): number {
    if (!Number.isNaN(this.spare)) {
      const value = this.spare;
      this.spare = Number.NaN;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(this.uniform()));
    const angle = 2 * Math.PI * this.uniform();
    this.spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  }
}

/**
 * The circuit equation in many small steps: u' = (A·L·r − leak·u)/τ with noise, the tone taken at the middle
 * of a step, noise by its exact variance, and between two steps the probability that a Brownian bridge
 * touched the threshold (exp(−2·d₀·d₁/σ²dt), e.g. Siegmund 1985). Slow, and shares nothing with the product.
 */
export class PlainDetector {
  u = 0;
  outcome = "step";
  private readonly set: PlainSettings;
  private readonly deviates: PlainDeviates;
  private readonly steps: number;
  private readonly length: number;

  constructor(set: PlainSettings, seed: string, stepsPerCycle: number) {
    this.set = set;
    this.deviates = new PlainDeviates(seed);
    this.length = set.burst + set.rise;
    this.steps = Math.ceil(this.length * set.carrierHz * stepsPerCycle);
    this.begin();
  }

  begin(): void {
    this.u = this.set.leak ? this.set.noiseV * this.deviates.normal() : 0;
  }

  rest(dt: number): void {
    const { leak, timeConstant, noiseV } = this.set;
    if (!leak) return;
    const decay = Math.exp(-dt / timeConstant);
    this.u = this.u * decay + noiseV * Math.sqrt(1 - decay * decay) * this.deviates.normal();
  }

  detect(phase: number, amplitude: number): number {
    const { leak, timeConstant, noiseV, thresholdV, rectifier, carrierHz, burst, rise } = this.set;
    const dt = this.length / this.steps;
    const ratio = dt / timeConstant;
    const keep = leak ? Math.exp(-ratio) : 1;
    const gain = leak ? 1 - keep : ratio;
    const variance = noiseV * noiseV * (leak ? 1 - keep * keep : 2 * ratio);
    const deviation = Math.sqrt(variance);
    if (!leak) this.u = 0;
    this.outcome = this.u >= thresholdV ? "blocked" : "missed";
    let u = this.u;
    let crossed = Number.NaN;
    for (let i = 0; i < this.steps; i++) {
      const t = (i + 0.5) * dt;
      const sine = Math.sin(2 * Math.PI * (phase + carrierHz * t));
      const level = rise === 0 ? 1 : Math.min(1, t / rise, (burst + rise - t) / rise);
      const r = level * (rectifier === "full" ? Math.abs(sine) : Math.max(0, sine));
      const before = u;
      u = u * keep + amplitude * r * gain;
      if (noiseV > 0) u += deviation * this.deviates.normal();
      if (this.outcome === "missed") {
        const d0 = thresholdV - before;
        const d1 = thresholdV - u;
        const touch = d1 <= 0 ? 1 : variance > 0 ? Math.exp((-2 * d0 * d1) / variance) : 0;
        if (touch > 1e-9 && (touch === 1 || this.deviates.uniform() < touch)) {
          crossed = (i + d0 / (d0 + Math.abs(d1))) * dt;
          this.outcome = "step";
        }
      }
    }
    this.u = u;
    return crossed;
  }
}

/** What many bursts came to, one after the other. */
export interface PlainRun {
  readonly delays: number[];
  readonly missed: number;
  readonly blocked: number;
}

/**
 * Bursts in a row, at a steady rate of a free tone.
 *
 * @param phaseOf - phase of the tone at the start of burst n; turns
 */
export function plainRun(
  set: PlainSettings,
  seed: string,
  bursts: number,
  settings: {
    readonly period: number;
    readonly amplitudeV: number;
    readonly amplitudeNoise: number;
    readonly stepsPerCycle: number;
    readonly phaseOf: (n: number) => number;
  },
): PlainRun {
  const detector = new PlainDetector(set, `${seed} detector`, settings.stepsPerCycle);
  const drive = new PlainDeviates(`${seed} drive`);
  const delays: number[] = [];
  let missed = 0;
  let blocked = 0;
  const forget = Math.ceil((20 * set.timeConstant) / settings.period);
  for (let n = -forget; n < bursts; n++) {
    const amplitude =
      settings.amplitudeV * Math.max(0, 1 + settings.amplitudeNoise * drive.normal());
    const delay = detector.detect(settings.phaseOf(n), amplitude);
    detector.rest(settings.period - set.burst - set.rise);
    if (n < 0) continue;
    if (detector.outcome === "missed") missed++;
    else if (detector.outcome === "blocked") blocked++;
    else delays.push(delay);
  }
  return { delays, missed: missed / bursts, blocked: blocked / bursts };
}
