import type { RecordColumns } from "../../../chain/index.ts";
import { Instant, RandomStream } from "../../../numeric/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { BurstDrive } from "../../../stages/drive/index.ts";
import { BurstCharge, type DelayByPhase, DetectorState } from "../../../stages/receiver/index.ts";
import type { BurstAsMet } from "../../protocol.ts";
import { noisePath } from "../noise-path.ts";
import type { Pace } from "../pace.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";

/** Bursts that can be stepped through. */
export const burstsShown = 200;

/** Points of the picture in a period of the rectified tone. */
const pointsPerPeriod = 16;

/** Bursts before the one shown whose charge is followed. */
const followed = 20;

/** One burst, beside what theory says of all. */
export const singleBurst: Task<"bursts"> = async (bench, { seed, burst }, pace) => {
  const { met } = await burstAsMet(bench.lesson, seed, burst, burstsShown, pace);
  const { drive } = bench.lesson;
  const theory = delayScatter(bench.delay(bench.lesson)!, drive!.carrierLock === "locked");
  return { ...met, theory };
};

/**
 * One burst from its start to a little after its end, as the engine met it, and the readings of the same run.
 *
 * @param lesson - a scenario of the lesson, driven by bursts
 * @param seed - of the run
 * @param burst - number of the one drawn; 1 to count
 * @param count - how many are run
 * @param pace - of the task
 */
export async function burstAsMet(
  lesson: Scenario,
  seed: string,
  burst: number,
  count: number,
  pace: Pace,
): Promise<{ readonly met: BurstAsMet; readonly readings: RecordColumns }> {
  const { drive, receiver, clock } = lesson;
  if (drive === null || receiver === null) {
    throw new RangeError("singleBurst: scenario must have a drive and a receiver, got none");
  }
  const startErrors: number[] = [];
  const delays: number[] = [];
  const period = 1 / (clock.tickHz * clock.stepsPerTick);
  const watched: Scenario = { ...lesson, counter: { ...lesson.counter, input: "clock" } };
  const readings = await recordRun(watched, seed, { length: (count + 1.5) * period }, pace, {
    burst(_number, startError, delay) {
      startErrors.push(startError);
      delays.push(delay);
    },
  });
  const charge = new BurstCharge(receiver, drive);
  const starts = startErrors.map((error, i) => (i + 1) * period - error);
  const received = followCharge(lesson, seed, charge, starts, burst);
  const delay = delays[burst - 1]!;
  charge.place(received.phase);
  const { time, step, end } = momentsOf(charge, received, drive.burst, delay);
  const state = new DetectorState(charge.tone.integrator);
  const mean = time.map((t) => {
    const within = Math.min(t, drive.burst);
    state.mean = received.charge;
    state.pass(within, received.amplitude * charge.at(within));
    if (t > within) state.rest(t - within);
    return state.mean;
  });
  const stream = new RandomStream(seed, `lesson/burst ${burst}`);
  const noise = noisePath(receiver, time, mean, step, end, stream);
  const met = {
    time,
    voltage: noise === null ? mean : mean.map((value, i) => value + noise[i]!),
    tone: time.map((t) => received.amplitude * charge.toneAt(t)),
    threshold: receiver.thresholdV,
    burst: drive.burst,
    delays: Float64Array.from(delays.slice(0, count)),
    late: Float64Array.from(startErrors.slice(0, count), (error) => -error),
    phase: received.phase,
    hasNoise: noise !== null,
  };
  return { met, readings };
}

/** Scatter of the delay, whatever the phase at which the tone begins; s. */
function delayScatter({ mean, variance }: DelayByPhase, isLocked: boolean): number {
  if (isLocked) return Math.sqrt(variance[0]!);
  const n = mean.length;
  let [sum, squares, within] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    sum += mean[i]! / n;
    within += variance[i]! / n;
  }
  for (let i = 0; i < n; i++) squares += (mean[i]! - sum) ** 2 / n;
  return Math.sqrt(within + squares);
}

/** What the receiver gets in one burst. */
interface ReceivedBurst {
  /** Phase of the tone at the start; turns, 0 ≤ phase < 1. */
  readonly phase: number;
  /** Peak amplitude; V. */
  readonly amplitude: number;
  /** Charge at the start; V. */
  readonly charge: number;
}

/** What the receiver gets in burst number `burst`: the drive's own draws again, and the charge left before it. */
function followCharge(
  scenario: Scenario,
  seed: string,
  burstCharge: BurstCharge,
  starts: readonly number[],
  burst: number,
): ReceivedBurst {
  const drive = scenario.drive!;
  const state = new DetectorState(burstCharge.tone.integrator);
  const drawn = new BurstDrive(drive, new RandomStream(seed, "drive"));
  const start = new Instant();
  let received: ReceivedBurst = { phase: 0, amplitude: 0, charge: 0 };
  for (let n = 1; n <= burst; n++) {
    const amplitude = drawn.drawAmplitude();
    if (n < burst - followed) continue;
    start.set(starts[n - 1]!, 0);
    received = { phase: drawn.phaseAt(start), amplitude, charge: state.mean };
    const rest = (starts[n] ?? 0) - starts[n - 1]! - drive.burst;
    burstCharge.place(received.phase);
    state.pass(drive.burst, amplitude * burstCharge.atEnd);
    state.rest(rest);
  }
  return received;
}

/** Moments of the picture: zeros and peaks of the tone, the end of the burst and the step are among them. */
function momentsOf({ tone }: BurstCharge, { phase }: ReceivedBurst, burst: number, delay: number) {
  const spacing = tone.period / pointsPerPeriod;
  const position = phase * tone.periodsPerCycle * pointsPerPeriod;
  const first = (Math.ceil(position) - position) * spacing;
  const after = tone.integrator.keeps ? burst / 5 : 0;
  const marks = Number.isNaN(delay) ? [0, burst] : [0, burst, delay];
  for (let k = 0; first + k * spacing <= burst + after; k++) marks.push(first + k * spacing);
  const time = Float64Array.from(new Set(marks)).sort();
  return { time, step: time.indexOf(delay), end: time.indexOf(burst) + 1 };
}
