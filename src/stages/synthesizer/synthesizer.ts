import {
  type BankStep,
  mostSteps,
  type PowerLawProcess,
  RelaxationBank,
  StepCache,
} from "../../noise/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import { finestScale } from "./finest-scale.ts";
import { allTerms, type LeftOut, leftOutTerms } from "./left-out.ts";
import { loopEntries, loopInputs } from "./loop-inputs.ts";
import { type LoopGains, loopGains } from "./loop-response.ts";
import { loopStart } from "./loop-start.ts";
import { type LoopGroup, type LoopStep, type LoopWhite, loopStep } from "./loop-step.ts";
import { setFrequency } from "./set-frequency.ts";
import { SpurLines } from "./spur-lines.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

const errorAt = 0;
const integratorAt = 1;

/** Coefficients of one step: loop, own frequency noise, own flicker PM. */
interface SynthesizerStep {
  readonly loop: LoopStep;
  readonly rate: BankStep;
  readonly phase: BankStep;
}

/** The way of the loop in its last steps, one number a step where nothing else is said. */
interface PathRoom {
  /** Loop error after each step; s. */
  readonly errors: Float64Array;
  /** What each step adds to the integrator. */
  readonly integrators: Float64Array;
  /** Own flicker PM after each step; s. */
  readonly phases: Float64Array;
  /** Deviates of each step: own frequency noise, own flicker PM, two for the loop. */
  readonly deviates: Float64Array;
  /** Own flicker PM, process by process, at the start and after each step. */
  readonly path: Float64Array;
}

/**
 * A slow rate made from the reference by a type-2 second-order phase-locked loop, in exact steps.
 *
 *   e = x_ref − x_loop,  e' = y_ref − y_own − K_p·(e + n) − z,  z' = K_i·(e + n)
 *   x_out = x_ref − e + own flicker PM + spurs
 *
 * y_ref is the frequency noise of the reference, y_own that of the loop's own oscillator, n the time
 * noise at the phase detector: its own, white PM and flicker PM of the reference and of the output. The
 * reference is advanced first, over the same step; the loop then draws its state given the values that the
 * reference has drawn, from a stream of its own. Terms of the reference that the loop follows it steps singly
 * from then on; where there are none, the reference is the same with and without a loop, draw by draw.
 * The loop starts in its stationary state.
 *
 * Source: Gardner, Phaselock Techniques, ch. 2 and 6.
 */
export class Synthesizer {
  readonly parameters: SynthesizerParameters;
  /** The rate set: the nearest multiple of the setting step; Hz. */
  readonly setHz: number;
  /** Noise processes that the loop does without, since they vanish beside the rest. */
  readonly leftOut: readonly LeftOut[];
  /** Rms of the independent part of an edge: white PM of the output; s. */
  readonly edgeRms: number;
  private readonly reference: PowerLawProcess;
  private readonly stream: RandomStream;
  private readonly edgeStream: RandomStream;
  private readonly gains: LoopGains;
  private readonly ownRate: RelaxationBank;
  private readonly ownPhase: RelaxationBank;
  private readonly groups: readonly LoopGroup[];
  private readonly white: LoopWhite;
  private readonly spurs: SpurLines;
  private readonly state = new Float64Array(2);
  private readonly room: PathRoom;
  private readonly steps: StepCache<SynthesizerStep>;

  /**
   * @param parameters - the synthesizer
   * @param reference - random part of its reference, made with `finestScale(finestStep, loop)`; the
   *   synthesizer follows it from where it stands
   * @param finestStep - smallest step the synthesizer is ever asked for; s, > 0
   * @param stream - random stream of the synthesizer
   * @param edgeStream - stream of the independent deviates of edges
   * @param mayLeaveOut - whether processes that vanish beside the rest are left out
   * @throws RangeError if a parameter makes no synthesizer
   */
  constructor(
    parameters: SynthesizerParameters,
    reference: PowerLawProcess,
    finestStep: number,
    stream: RandomStream,
    edgeStream: RandomStream = stream,
    mayLeaveOut = true,
  ) {
    this.parameters = parameters;
    this.reference = reference;
    this.stream = stream;
    this.edgeStream = edgeStream;
    this.setHz = setFrequency(parameters.outputHz, parameters.settingStepHz);
    this.gains = loopGains(parameters.loop);
    this.spurs = new SpurLines(parameters.spurs, stream);

    const scale = finestScale(finestStep, parameters.loop);
    if (!(reference.finestStep <= scale)) {
      throw new RangeError(
        `Synthesizer: reference must be made for steps down to ${scale} s, got ${reference.finestStep} s`,
      );
    }
    const inputs = loopInputs(parameters, reference.levels, scale, reference.finestStep);
    const kept = mayLeaveOut
      ? leftOutTerms(parameters, reference.levels, inputs)
      : allTerms(inputs);
    this.leftOut = kept.leftOut;
    const own = inputs.ownRate;
    this.ownRate = RelaxationBank.stationary(
      Float64Array.from(kept.ownRate, (k) => own.timeConstants[k]!),
      Float64Array.from(kept.ownRate, (k) => own.diffusions[k]!),
      stream,
    );
    this.ownPhase = RelaxationBank.stationary(
      inputs.ownPhase.timeConstants,
      inputs.ownPhase.diffusions,
      stream,
    );
    this.edgeRms = Math.sqrt(
      parameters.noise.whitePmRms * parameters.noise.whitePmRms +
        inputs.ownPhase.fastTimes.length * inputs.ownPhase.variance,
    );
    this.white = {
      referenceLevel: reference.whiteRateLevel,
      ownLevel: own.whiteLevel + kept.ownWhiteLevel,
      detectorDensity: inputs.detectorDensity + inputs.sampledDensity,
    };
    const entries = loopEntries(this.gains);
    const followed = reference.single(kept.referenceRate, kept.referencePhase);
    const banks = [followed.rate, followed.phase, this.ownRate, this.ownPhase];
    const group = (bank: RelaxationBank, entry: LoopGroup["entry"]) => ({
      timeConstants: bank.timeConstants,
      diffusions: bank.diffusions,
      entry,
      makesReferenceTime: bank === followed.rate,
    });
    this.groups = [
      group(followed.rate, entries.referenceRate),
      group(followed.phase, entries.referencePhase),
      group(this.ownRate, entries.ownRate),
      group(this.ownPhase, entries.ownPhase),
    ];
    const start = loopStart(this.gains, this.groups, this.white, banks);
    const first = stream.normal();
    const second = stream.normal();
    this.state[errorAt] = start.mean[0]! + start.root[0]! * first;
    this.state[integratorAt] = start.mean[1]! + start.root[2]! * first + start.root[3]! * second;
    this.room = roomFor(this.ownRate.after.length, this.ownPhase.after.length);
    this.steps = new StepCache((dt) => this.makeStep(dt));
  }

  /**
   * Follows the reference over the steps it has just made.
   *
   * @param dt - each step; s, the same as that of the last `advance` of the reference
   * @throws RangeError if the reference's last step was another
   */
  follow(dt: number): void {
    const reference = this.reference;
    if (dt !== reference.lastStep) {
      throw new RangeError(
        `Synthesizer.follow: dt must be the reference's last step ${reference.lastStep} s, got ${dt}`,
      );
    }
    const { loop, rate, phase } = this.steps.at(dt);
    const { stream, state, room, ownRate, ownPhase } = this;
    const { steps, residuals, rates, phaseTerms } = reference.path;
    const { deviates, errors, integrators, phases, path } = room;
    const ownRates = ownRate.after.length;
    const ownPhases = ownPhase.after.length;
    const pitch = ownRates + ownPhases + 2;
    stream.fillNormal(deviates, 0, steps * pitch);
    const { factors } = loop;
    // Where each step would bring the loop from rest, …
    startDrive(factors, residuals, deviates, ownRates + ownPhases, steps, errors, integrators);
    const [ofReferenceRate, ofReferencePhase, ofRate, ofPhase] = loop.groupFactors;
    addDrive(ofReferenceRate!, rates, steps, errors, integrators);
    addDrive(ofReferencePhase!, phaseTerms, steps, errors, integrators);
    const { after } = ownRate;
    driveAlong(after, rate.factors, ofRate!, steps, deviates, pitch, errors, integrators);
    if (ownPhases > 0) {
      ownPhase.walk(phase.factors, steps, deviates, ownRates, pitch, path);
      addDrive(ofPhase!, path, steps, errors, integrators);
      phases.fill(0, 0, steps);
      ownPhase.addSums(path, steps, phases);
    }
    // … and from where it stands.
    moveLoop(factors, state, steps, errors, integrators);
  }

  /**
   * Time errors of the output at each of the last steps, by noise and spurs, each with the independent part of its
   * edge: white PM and the fastest flicker PM.
   *
   *   x_ref − e + own flicker PM + spurs + edge
   *
   * @param u - nominal time after each step, for the spurs; s
   * @param out - receives the time errors, the reference's accumulated noise included; s, positive = early
   */
  timeErrors(u: Float64Array, out: Float64Array): void {
    const { steps, accumulated } = this.reference.path;
    const { errors, phases, deviates } = this.room;
    for (let i = 0; i < steps; i++) {
      out[i] = accumulated[i]! - errors[i]! + phases[i]!;
    }
    this.spurs.addTo(u, steps, out);
    const { edgeRms } = this;
    if (edgeRms === 0) return;
    this.edgeStream.fillNormal(deviates, 0, steps);
    for (let i = 0; i < steps; i++) out[i] = out[i]! + edgeRms * deviates[i]!;
  }

  private makeStep(dt: number): SynthesizerStep {
    return {
      loop: loopStep(this.gains, this.groups, this.white, this.reference.pooledVariance, dt),
      rate: this.ownRate.step(dt),
      phase: this.ownPhase.step(dt),
    };
  }
}

/** Room for the way of many steps. */
function roomFor(rates: number, phases: number): PathRoom {
  const column = () => new Float64Array(mostSteps);
  return {
    errors: column(),
    integrators: column(),
    phases: column(),
    deviates: new Float64Array((rates + phases + 2) * mostSteps),
    path: new Float64Array(phases * (mostSteps + 1)),
  };
}

/** Adds what a group of processes brings into e and z in each step, given their values at both ends of it. */
function addDrive(
  weights: Float64Array,
  path: Float64Array,
  steps: number,
  errors: Float64Array,
  integrators: Float64Array,
): void {
  for (let w = 0, at = 0; w < weights.length; w += 4, at += steps + 1) {
    const startE = weights[w]!;
    const startZ = weights[w + 1]!;
    const endE = weights[w + 2]!;
    const endZ = weights[w + 3]!;
    let y0 = path[at]!;
    for (let i = 0; i < steps; i++) {
      const y1 = path[at + 1 + i]!;
      errors[i] = errors[i]! + (startE * y0 + endE * y1);
      integrators[i] = integrators[i]! + (startZ * y0 + endZ * y1);
      y0 = y1;
    }
  }
}

/**
 * Makes the steps of a group of processes and adds what they bring into e and z: `RelaxationBank.walk` and `addDrive`
 * at one go, for values that nobody asks for later.
 */
function driveAlong(
  values: Float64Array,
  factors: Float64Array,
  weights: Float64Array,
  steps: number,
  deviates: Float64Array,
  pitch: number,
  errors: Float64Array,
  integrators: Float64Array,
): void {
  for (let k = 0; k < values.length; k++) {
    const decay = factors[3 * k]!;
    const spread = factors[3 * k + 1]!;
    const startE = weights[4 * k]!;
    const startZ = weights[4 * k + 1]!;
    const endE = weights[4 * k + 2]!;
    const endZ = weights[4 * k + 3]!;
    let y0 = values[k]!;
    for (let i = 0, from = k; i < steps; i++, from += pitch) {
      const y1 = decay * y0 + spread * deviates[from]!;
      errors[i] = errors[i]! + (startE * y0 + endE * y1);
      integrators[i] = integrators[i]! + (startZ * y0 + endZ * y1);
      y0 = y1;
    }
    values[k] = y0;
  }
}

/** Sets what the reference's residuals and the loop's own deviates, two a step, bring into e and z. */
function startDrive(
  factors: Float64Array,
  residuals: Float64Array,
  deviates: Float64Array,
  ownTerms: number,
  steps: number,
  errors: Float64Array,
  integrators: Float64Array,
): void {
  for (let i = 0, at = ownTerms; i < steps; i++, at += ownTerms + 2) {
    const residual = residuals[i]!;
    const first = deviates[at]!;
    errors[i] = factors[4]! * residual + factors[6]! * first;
    integrators[i] = factors[5]! * residual + factors[7]! * first + factors[8]! * deviates[at + 1]!;
  }
}

/** Moves the state (e, z) through all steps, given what each brings; `errors` then holds e after each. */
function moveLoop(
  factors: Float64Array,
  state: Float64Array,
  steps: number,
  errors: Float64Array,
  integrators: Float64Array,
): void {
  let e = state[errorAt]!;
  let z = state[integratorAt]!;
  for (let i = 0; i < steps; i++) {
    const nextE = factors[0]! * e + factors[1]! * z + errors[i]!;
    z = factors[2]! * e + factors[3]! * z + integrators[i]!;
    e = nextE;
    errors[i] = e;
  }
  state[errorAt] = e;
  state[integratorAt] = z;
}
