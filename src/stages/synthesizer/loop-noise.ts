import { type NoiseLevels, phaseLadder, rateLadder } from "../../noise/index.ts";
import type { Decay, NoiseTerm } from "../../theory/index.ts";
import { type LoopConstants, loopAutocorrelation } from "./loop-autocorrelation.ts";
import { loopGains } from "./loop-response.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** Noise faster than a hundredth of 1/ω is white to the loop: a thousandth of this, in 1/ω. */
const finestScale = 10;

/**
 * The time errors at the output of a synthesizer, about the reference's accumulated time error, term by term.
 *
 * Noise of the loop's own oscillator passes through 1 − H, that of the phase detector and phase noise of the
 * reference through H; of the reference's frequency noise the loop leaves 1 − H behind. Noise that the phase
 * detector samples is white to the loop with 2σ²/f_comparison.
 *
 * @param synthesizer - the loop
 * @param reference - noise levels of its reference
 * @returns terms whose autocorrelations are exact; those that are zero are left out
 *
 * Source: Gardner, Phaselock Techniques, ch. 6; autocorrelations by residues (`loopAutocorrelation`).
 */
export function loopNoise(
  synthesizer: SynthesizerParameters,
  reference: NoiseLevels,
): readonly NoiseTerm[] {
  const own = synthesizer.noise;
  const omega = Math.sqrt(loopGains(synthesizer.loop).integral);
  const loop: LoopConstants = { omega, damping: synthesizer.loop.damping };
  const scale = finestScale / omega;
  const comparison = synthesizer.loop.comparisonHz;
  const terms: NoiseTerm[] = [];
  const add = (stage: string, cause: string, decays: readonly Decay[]) => {
    if (decays.some(({ coefficient: c }) => c.re !== 0 || c.im !== 0)) {
      terms.push({ stage, cause, shape: { type: "correlated", decays: merged(decays) } });
    }
  };
  const sampled = (variance: number) => detected(loop, (2 * variance) / comparison);

  add("synthesizer", "white FM of its oscillator", whiteRate(loop, own.h0));
  add("synthesizer", "flicker FM of its oscillator", flickerRate(loop, own, scale));
  add("synthesizer", "random-walk FM of its oscillator", walkingRate(loop, own.hMinus2));
  const ownPhase = phaseLadder(own, scale);
  const fast = ownPhase.variance * ownPhase.fastTimes.length;
  add("synthesizer", "flicker PM of its oscillator", [
    ...ladderDecays(loop, ownPhase, (density) => [0, 0, density]),
    ...sampled(fast),
  ]);
  if (fast > 0) {
    const cause = "flicker PM of its oscillator, single edges";
    terms.push({ stage: "synthesizer", cause, shape: { type: "white", variance: fast } });
  }
  const ownWhite = own.whitePmRms * own.whitePmRms;
  if (ownWhite > 0) {
    const shape = { type: "white", variance: ownWhite } as const;
    terms.push({ stage: "synthesizer", cause: "white PM of its edges", shape });
    add("synthesizer", "white PM of its edges, fed back", sampled(ownWhite));
  }
  const detector = synthesizer.phaseDetectorWhite * synthesizer.phaseDetectorWhite;
  add("synthesizer", "phase detector", detected(loop, detector));
  const spurs = synthesizer.spurs.filter((spur) => spur.timeAmplitude > 0);
  if (spurs.length > 0) {
    const lines = spurs.map(({ frequencyHz, timeAmplitude }) => ({
      frequency: frequencyHz,
      variance: (timeAmplitude * timeAmplitude) / 2,
    }));
    terms.push({ stage: "synthesizer", cause: "spurs", shape: { type: "lines", lines } });
  }

  const phase = phaseLadder(reference, scale);
  add(
    "reference",
    "white PM through the loop",
    sampled(reference.whitePmRms * reference.whitePmRms),
  );
  add("reference", "flicker PM through the loop", [
    ...ladderDecays(loop, phase, (density) => throughLoop(loop, density)),
    ...sampled(phase.variance * phase.fastTimes.length),
  ]);
  add("reference", "frequency noise the loop does not follow", [
    ...whiteRate(loop, reference.h0),
    ...flickerRate(loop, reference, scale),
    ...walkingRate(loop, reference.hMinus2),
  ]);
  return terms;
}

/** Decays with the same pole as one: those of the loop come up in every part. */
function merged(decays: readonly Decay[]): readonly Decay[] {
  const byPole = new Map<string, Decay>();
  for (const { coefficient, pole } of decays) {
    const key = `${pole.re} ${pole.im}`;
    const other = byPole.get(key)?.coefficient ?? { re: 0, im: 0 };
    const sum = { re: coefficient.re + other.re, im: coefficient.im + other.im };
    byPole.set(key, { coefficient: sum, pole });
  }
  return [...byPole.values()];
}

type Numerator = readonly [number, number, number];

/** Two-sided density times |H|²·|Q|² as a polynomial in z = s². */
function throughLoop(loop: LoopConstants, density: number): Numerator {
  const { omega, damping } = loop;
  const square = omega * omega;
  return [density * square * square, -4 * density * damping * damping * square, 0];
}

/** White time noise at the phase detector, one-sided density in s²/Hz. */
function detected(loop: LoopConstants, density: number): readonly Decay[] {
  if (density === 0) return [];
  return loopAutocorrelation(loop, { numerator: throughLoop(loop, density / 2), timeConstant: 0 });
}

function whiteRate(loop: LoopConstants, h0: number): readonly Decay[] {
  if (h0 === 0) return [];
  return loopAutocorrelation(loop, { numerator: [0, -h0 / 2, 0], timeConstant: 0 });
}

function walkingRate(loop: LoopConstants, hMinus2: number): readonly Decay[] {
  if (hMinus2 === 0) return [];
  const diffusion = 2 * Math.PI * Math.PI * hMinus2;
  return loopAutocorrelation(loop, { numerator: [diffusion, 0, 0], timeConstant: 0 });
}

function flickerRate(loop: LoopConstants, levels: NoiseLevels, scale: number): readonly Decay[] {
  if (levels.hMinus1 === 0) return [];
  const ladder = rateLadder({ ...levels, h0: 0, hMinus2: 0 }, scale);
  return [
    ...whiteRate(loop, ladder.whiteLevel),
    ...ladderDecays(loop, ladder, (density) => [0, -density, 0]),
  ];
}

/** A ladder of relaxation processes, each of the two-sided density D·T²/(1 + Ω²T²), D its diffusion. */
function ladderDecays(
  loop: LoopConstants,
  ladder: { readonly timeConstants: Float64Array; readonly diffusions: Float64Array },
  numerator: (density: number) => Numerator,
): readonly Decay[] {
  const decays: Decay[] = [];
  for (let k = 0; k < ladder.timeConstants.length; k++) {
    const time = ladder.timeConstants[k]!;
    const density = ladder.diffusions[k]! * time * time;
    decays.push(
      ...loopAutocorrelation(loop, { numerator: numerator(density), timeConstant: time }),
    );
  }
  return decays;
}
