import { Instant, RandomStream } from "../../../numeric/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { BurstDrive } from "../../../stages/drive/index.ts";
import { type DelayByPhase, RectifiedTone } from "../../../stages/receiver/index.ts";
import type { BurstAsMet } from "../../protocol.ts";
import { chargeAt, chargeLeft, type ReceivedBurst, toneAt } from "../mean-charge.ts";
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
  const found = await burstAsMet(bench.lesson, seed, burst, pace);
  const { drive } = bench.lesson;
  const theory = delayScatter(bench.delay(bench.lesson)!, drive!.carrierLock === "locked");
  return { ...found, theory };
};

/** One burst from its start to a little after its end, as the engine met it. */
export async function burstAsMet(
  lesson: Scenario,
  seed: string,
  burst: number,
  pace: Pace,
): Promise<BurstAsMet> {
  const { drive, receiver, clock } = lesson;
  if (drive === null || receiver === null) {
    throw new RangeError("singleBurst: scenario must have a drive and a receiver, got none");
  }
  const startErrors: number[] = [];
  const delays: number[] = [];
  const period = 1 / (clock.tickHz * clock.stepsPerTick);
  const watched: Scenario = { ...lesson, counter: { ...lesson.counter, input: "clock" } };
  await recordRun(watched, seed, { length: (burstsShown + 1) * period }, pace, {
    burst(_number, startError, delay) {
      startErrors.push(startError);
      delays.push(delay);
    },
  });
  const tone = new RectifiedTone(receiver, drive.carrierHz * (1 + drive.carrierFractionalOffset));
  const starts = startErrors.map((error, i) => (i + 1) * period - error);
  const received = followCharge(lesson, seed, tone, starts, burst);
  const delay = delays[burst - 1]!;
  const { time, step, end } = momentsOf(tone, received, drive.burst, delay);
  const charge = chargeAt(tone, received, drive.burst);
  const mean = time.map((t) =>
    t <= drive.burst
      ? chargeAt(tone, received, t)
      : chargeLeft(charge, t - drive.burst, receiver.timeConstant, receiver.leak),
  );
  const stream = new RandomStream(seed, `lesson/burst ${burst}`);
  const noise = noisePath(receiver, time, mean, step, end, stream);
  return {
    time,
    voltage: noise === null ? mean : mean.map((value, i) => value + noise[i]!),
    tone: time.map((t) => (t <= drive.burst ? toneAt(tone, received, t) : 0)),
    threshold: receiver.thresholdV,
    burst: drive.burst,
    delays: Float64Array.from(delays.slice(0, burstsShown)),
    late: Float64Array.from(startErrors.slice(0, burstsShown), (error) => -error),
    phase: received.phase,
    hasNoise: noise !== null,
  };
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

/** What the receiver gets in burst number `burst`: the drive's own draws again, and the charge left before it. */
function followCharge(
  scenario: Scenario,
  seed: string,
  tone: RectifiedTone,
  starts: readonly number[],
  burst: number,
): ReceivedBurst {
  const drive = scenario.drive!;
  const receiver = scenario.receiver!;
  const drawn = new BurstDrive(drive, new RandomStream(seed, "drive"));
  const start = new Instant();
  let received: ReceivedBurst = { phase: 0, amplitude: 0, charge: 0 };
  let charge = 0;
  for (let n = 1; n <= burst; n++) {
    const amplitude = drawn.drawAmplitude();
    if (n < burst - followed) continue;
    start.set(starts[n - 1]!, 0);
    received = { phase: drawn.phaseAt(start), amplitude, charge };
    const rest = (starts[n] ?? 0) - starts[n - 1]! - drive.burst;
    const atEnd = chargeAt(tone, received, drive.burst);
    charge = chargeLeft(atEnd, rest, receiver.timeConstant, receiver.leak);
  }
  return received;
}

/** Moments of the picture: zeros and peaks of the tone, the end of the burst and the step are among them. */
function momentsOf(tone: RectifiedTone, { phase }: ReceivedBurst, burst: number, delay: number) {
  const spacing = tone.period / pointsPerPeriod;
  const position = phase * tone.periodsPerCycle * pointsPerPeriod;
  const first = (Math.ceil(position) - position) * spacing;
  const after = tone.leak ? burst / 5 : 0;
  const marks = Number.isNaN(delay) ? [0, burst] : [0, burst, delay];
  for (let k = 0; first + k * spacing <= burst + after; k++) marks.push(first + k * spacing);
  const time = Float64Array.from(new Set(marks)).sort();
  return { time, step: time.indexOf(delay), end: time.indexOf(burst) + 1 };
}
