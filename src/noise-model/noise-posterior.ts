import { exp } from "../numeric/index.ts";
import { ladder, slowerThanLadder } from "./ladder.ts";
import { type GridNode, levelGrid } from "./level-grid.ts";
import type { Known } from "./prior.ts";
import type { ReadingRecord } from "./reading-record.ts";
import { mixtureMean, mixtureQuantile, type StudentMixture } from "./student-mixture.ts";
import { type ScaledEvents, toEvents } from "./to-events.ts";

/** A number with the interval that holds it with 95 %. */
export interface Held {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

/** What a record says about its noise, and about its rate averaged over that. */
export class NoisePosterior {
  readonly scaled: ScaledEvents;
  readonly nodes: readonly GridNode[];
  /** Weight of each node; they sum to 1. */
  readonly weight: Float64Array;
  /** Variance of slower noise than the record can show, in floors; see slowerThanLadder. */
  readonly slower: number;

  constructor(record: ReadingRecord, known: Known = {}, blocks?: number) {
    this.scaled = toEvents(record, blocks);
    this.nodes = levelGrid(this.scaled, known);
    const best = this.nodes.reduce((most, node) => Math.max(most, node.logPosterior), -Infinity);
    this.weight = Float64Array.from(this.nodes, (node) => exp(node.logPosterior - best));
    const total = this.weight.reduce((a, b) => a + b, 0);
    for (let i = 0; i < this.weight.length; i++) this.weight[i] = this.weight[i]! / total;
    const { duration } = this.scaled.events;
    this.slower = slowerThanLadder(ladder(1, duration), duration);
  }

  /** Slope over the run, without the noise of edges; dimensionless. */
  overRun(): Held {
    return this.held(({ fit }) => fit.overRun);
  }

  /** Steady slope: the deterministic rate over the run; dimensionless. */
  steady(): Held {
    return this.held(({ fit, levels }) => ({
      value: fit.steady.value,
      variance: fit.steady.variance + this.slower * levels.ffm,
    }));
  }

  private held(of: (node: GridNode) => { value: number; variance: number }): Held {
    const { slope, phaseUnit, timeUnit } = this.scaled;
    const mixture = this.mixture(of);
    const inRecord = (x: number) => slope + (x * phaseUnit) / timeUnit;
    return {
      estimate: inRecord(mixtureMean(mixture)),
      low: inRecord(mixtureQuantile(mixture, 0.025)),
      high: inRecord(mixtureQuantile(mixture, 0.975)),
    };
  }

  private mixture(of: (node: GridNode) => { value: number; variance: number }): StudentMixture {
    const { nodes, weight } = this;
    const centre = new Float64Array(nodes.length);
    const scale = new Float64Array(nodes.length);
    const degrees = new Float64Array(nodes.length);
    for (let i = 0; i < nodes.length; i++) {
      const { fit } = nodes[i]!;
      const { value, variance } = of(nodes[i]!);
      centre[i] = value;
      scale[i] = Math.sqrt((variance * fit.squares) / fit.degrees);
      degrees[i] = fit.degrees;
    }
    return { weight, centre, scale, degrees };
  }
}
