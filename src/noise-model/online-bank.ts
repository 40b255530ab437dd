import { exp } from "../numeric/index.ts";
import { slowerThanLadder } from "./ladder.ts";
import { type Estimate, type LeastSquares, LeastSquaresPass } from "./least-squares-pass.ts";
import type { Held } from "./level-statements.ts";
import type { Levels } from "./levels.ts";
import { NoisePosterior } from "./noise-posterior.ts";
import type { Known } from "./prior.ts";
import type { ReadingRecord } from "./reading-record.ts";
import { heldBy } from "./student-mixture.ts";
import { mostEdges, type ScaledEvents, toEvents } from "./to-events.ts";

/** One more reading; see ReadingRecord. */
export interface NextReading {
  readonly length: number;
  readonly gain: number;
  readonly gap: number;
  readonly gapGain: number;
}

interface Member {
  readonly levels: Levels;
  readonly prior: number;
  readonly pass: LeastSquaresPass;
}

/** Weight that the members of a new bank hold together. */
const enough = 0.999;

/**
 * Both rates while readings come in: a bank of filters over the levels, each of which takes a reading more as it
 * comes. The grid is laid anew when the record has doubled. It looks for no faults, and the temperature is not in it:
 * what closes a run is computed from the whole.
 */
export class OnlineBank {
  private readonly readings: NextReading[] = [];
  private readonly known: Known;
  private members: Member[] = [];
  private scaled: ScaledEvents | null = null;
  private times: Float64Array = new Float64Array(0);
  private laidAt = 0;
  private time = 0;
  private phase = 0;
  private duration = 0;
  private skipped = 0;
  private readonly values = new Float64Array(2);

  constructor(known: Known = {}) {
    this.known = known;
  }

  /** Takes a reading. Costs a new grid where the record has doubled, else less than 0.2 ms. */
  add(reading: NextReading): void {
    this.readings.push(reading);
    const size = this.readings.length;
    if (size >= 4 && size >= 2 * this.laidAt) this.lay();
    else if (this.scaled !== null) this.take(reading);
  }

  /** Both slopes so far; null before there are four readings. */
  slopes(): { overRun: Held; steady: Held } | null {
    const { scaled, members, duration } = this;
    if (scaled === null) return null;
    const fits = members.map(({ pass }) => pass.result([duration], duration));
    const logs = fits.map((fit, i) => fit.logLikelihood + members[i]!.prior);
    const best = logs.reduce((a, b) => Math.max(a, b), -Infinity);
    const weight = Float64Array.from(logs, (x) => exp(x - best));
    const slower = slowerThanLadder(this.times, duration);
    const of = (estimate: (fit: LeastSquares, levels: Levels) => Estimate) => {
      const estimates = fits.map((fit, i) => estimate(fit, members[i]!.levels));
      const mixture = {
        weight,
        centre: Float64Array.from(estimates, ({ value }) => value),
        scale: Float64Array.from(estimates, ({ variance }, i) =>
          Math.sqrt((variance * fits[i]!.squares) / fits[i]!.degrees),
        ),
        degrees: fits[0]!.degrees,
      };
      const unit = scaled.phaseUnit / scaled.timeUnit;
      return heldBy(mixture, (x) => scaled.slope + x * unit);
    };
    return {
      overRun: of((fit) => fit.overRun),
      steady: of(({ steady }, { ffm }) => ({
        value: steady.value,
        variance: steady.variance + slower * ffm,
      })),
    };
  }

  /** Lays the grid over what there is, and runs every member up to now. */
  private lay(): void {
    this.laidAt = this.readings.length;
    const record = recordOf(this.readings);
    this.scaled = toEvents(record, Math.max(mostEdges, record.length.length + 2));
    const posterior = new NoisePosterior(toEvents(record), this.known, false);
    // Levels of block means are those of edges: units of a reading either way.
    this.times = posterior.times;
    const order = Array.from(posterior.nodes.keys()).sort(
      (a, b) => posterior.weight[b]! - posterior.weight[a]!,
    );
    this.members = [];
    let held = 0;
    for (const i of order) {
      if (held > enough) break;
      held += posterior.weight[i]!;
      const { levels, fit, logPosterior } = posterior.nodes[i]!;
      const pass = new LeastSquaresPass(levels, this.times, 1);
      this.members.push({ levels, prior: logPosterior - fit.logLikelihood, pass });
    }
    this.time = 0;
    this.phase = 0;
    this.duration = 0;
    this.skipped = 0;
    this.readings.forEach((reading, i) => {
      if (i === 0 && !Number.isNaN(reading.gain)) for (const { pass } of this.members) pass.start();
      this.take(reading, i === 0);
    });
  }

  private take({ length, gain, gap, gapGain }: NextReading, first = false): void {
    const { timeUnit, phaseUnit, slope } = this.scaled!;
    const before = first ? 0 : gap / timeUnit;
    if (Number.isNaN(gain)) {
      this.skipped += before + length / timeUnit;
      return;
    }
    if (this.skipped > 0 || (before > 0 && Number.isNaN(gapGain))) {
      this.step(this.skipped + before, true);
    } else if (before > 0) {
      this.phase += (gapGain - slope * gap) / phaseUnit;
      this.step(before, false);
    }
    this.skipped = 0;
    this.phase += (gain - slope * length) / phaseUnit;
    this.step(length / timeUnit, false);
  }

  private step(dt: number, starts: boolean): void {
    this.duration += dt;
    if (starts) {
      this.time = 0;
      this.phase = 0;
    } else this.time += dt;
    this.values[0] = this.phase;
    this.values[1] = this.time;
    for (const { pass } of this.members) {
      pass.advance(dt, 1);
      if (starts) pass.start();
      else pass.observe(1, this.values);
    }
  }
}

function recordOf(readings: readonly NextReading[]): ReadingRecord {
  const of = (key: keyof NextReading) => Float64Array.from(readings, (reading) => reading[key]);
  return { length: of("length"), gain: of("gain"), gap: of("gap"), gapGain: of("gapGain") };
}
