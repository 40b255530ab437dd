// Measures the program against its goals: prints a table and writes out/bench.json.
//
// CPU time rather than wall time, medians over rounds, and ratios of what was measured in one round, since a
// shared machine gets faster and slower from minute to minute. `--quick` shows in a minute that all works.
import { mkdirSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { fileURLToPath } from "node:url";
import { demo, dividedReference, runChain } from "./chains.ts";
import { countDeviates, drawDeviates } from "./deviates.ts";
import { canPin, isBuilt, sweepTime } from "./ensemble.ts";
import { compileLimit, runLimit } from "./limit.ts";
import { type Measured, measure, median } from "./measure.ts";
import { hasNumpy, runNumpy } from "./numpy.ts";
import { peakMemory, runForMemory } from "./peak-memory.ts";
import {
  allan,
  events,
  logOf,
  modifiedAllan,
  mtie,
  readPieces,
  record,
  writeRows,
} from "./records.ts";
import { startRatio } from "./start.ts";

const isQuick = process.argv.includes("--quick");
const rounds = isQuick ? 1 : 5;
const ticks = isQuick ? 1e5 : 1e6;
const points = isQuick ? 1e5 : 1e6;

const figures: Record<string, string | number> = {};

/** Prints and keeps a figure. */
function put(name: string, value: number, unit: string, goal = ""): void {
  figures[unit === "" ? name : `${name} (${unit})`] = value;
  const text = Math.abs(value) >= 1000 ? value.toFixed(0) : value.toPrecision(3);
  console.log(`  ${name.padEnd(58)} ${text.padStart(9)} ${unit.padEnd(8)} ${goal}`.trimEnd());
}

const ratio = (a: Measured, b: Measured) => median(a.runs.map((value, i) => value / b.runs[i]!));

function chains(): void {
  const white = dividedReference("white_pm_rms_s: 1e-11, white_fm_adev_1s: 2e-11");
  const all = dividedReference(
    "white_pm_rms_s: 1e-11, flicker_pm_adev_1s: 1e-11, white_fm_adev_1s: 2e-11, flicker_fm_adev: 2e-13, random_walk_fm_adev_1s: 1e-16",
  );
  const observatory = demo("observatory");
  const lazy = demo("observatory", ["counter.gate_s=100"]);
  const direct = demo("reference-direct", ["counter.gate_s=1"]);
  const gates = points;
  const work = {
    deviate: () => drawDeviates(4000),
    white: () => runChain(white, ticks, "ticks"),
    all: () => runChain(all, ticks, "ticks"),
    bursts: () => runChain(observatory, ticks, "bursts"),
    ticks: () => runChain(observatory, ticks, "ticks"),
    lazy: () => runChain(lazy, 10 * ticks, "lazy"),
    direct: () => runChain(direct, gates, "lazy"),
  };
  console.log("chains, nothing written");
  const numpy = { frozen: [] as number[], stepwise: [] as number[] };
  const withNumpy = hasNumpy();
  const withLimit = compileLimit();
  const limit: number[] = [];
  const all5 = measure(work, rounds, () => {
    if (withLimit) limit.push(runLimit(ticks));
    if (!withNumpy) return;
    for (const kind of ["frozen", "stepwise"] as const) numpy[kind].push(runNumpy(kind, ticks).ns);
  });
  put("Gaussian deviate, block fill, six streams", all5.deviate.ns, "ns");
  put("(a) white PM and FM, a tick", all5.white.ns, "ns");
  put("(b) all five noises, a tick", all5.all.ns, "ns");
  put("(c) observatory, every burst, a tick", all5.bursts.ns, "ns");
  put("    only the bursts that make ticks, a tick", all5.ticks.ns, "ns");
  put("(d) observatory, gate of 100 s, a simulated second", all5.lazy.ns, "ns");
  put("(e) a million gates of 1 s on 10 MHz", (all5.direct.ns * 1e6) / 1e9, "s", "goal: < 3");
  for (const [name, scenario, mode] of [
    ["(b)", all, "ticks"],
    ["(c)", observatory, "bursts"],
    ["ticks", observatory, "ticks"],
  ] as const) {
    // As many ticks as were timed: the first bursts of a run draw more than those after.
    const drawn = countDeviates(() => runChain(scenario, ticks, mode));
    put(`${name}: Gaussian deviates a tick`, drawn.normal / ticks, "");
    put(`${name}: uniform deviates a tick`, drawn.uniform / ticks, "");
  }
  put("(c) over (d), a simulated second", ratio(all5.bursts, all5.lazy), "times", "goal: > 50");
  if (withLimit) {
    const against = (m: Measured) => median(limit.map((ns, i) => ns / m.runs[i]!));
    put("plain C, every burst, a tick", median(limit), "ns");
    put("plain C over (c)", against(all5.bursts), "times", "goal: > 2");
    put("plain C over ticks mode", against(all5.ticks), "times", "goal: > 5");
  }
  for (const kind of ["frozen", "stepwise"] as const) {
    if (!withNumpy) continue;
    const against = (m: Measured) => median(numpy[kind].map((ns, i) => ns / m.runs[i]!));
    put(`numpy, ${kind} detector, a tick`, median(numpy[kind]), "ns");
    put(`numpy, ${kind}, over (c)`, against(all5.bursts), "times", "goal: > 2");
    put(`numpy, ${kind}, over ticks mode`, against(all5.ticks), "times", "goal: > 6");
  }
}

function tools(): void {
  const x = record(points);
  const observatory = demo("observatory");
  const [bare, table] = [logOf(points, false), logOf(points, true)];
  const work = {
    allan: () => allan(x),
    modified: () => modifiedAllan(x),
    mtie: () => mtie(x),
    rows: () => writeRows(x),
    simulate: () => runChain(observatory, points / 5, "ticks"),
    events: () => events(points),
    bare: () => readPieces(bare),
    table: () => readPieces(table),
  };
  const result = measure(work, rounds);
  console.log(`records of ${points} points`);
  put("overlapping Allan deviation, all octaves", result.allan.ns / 1e6, "ms");
  put("modified Allan deviation, all octaves", result.modified.ns / 1e6, "ms");
  put("MTIE, all octaves", result.mtie.ns / 1e6, "ms");
  put("the last two together", (result.modified.ns + result.mtie.ns) / 1e9, "s", "goal: < 1");
  put("rows of ticks.csv a second", 1e9 / result.rows.ns, "");
  put("a row over a simulated tick", ratio(result.rows, result.simulate), "", "goal: < 1");
  put("events of the kernel a second", 1e9 / result.events.ns, "");
  put("a million lines of a log, bare numbers", result.bare.ns / 1e3, "s", "goal: < 1.5");
  put("the same, a table with times and temperatures", result.table.ns / 1e3, "s", "goal: < 1.5");
}

function machine(): void {
  const file = new URL(import.meta.url);
  console.log("the whole machine");
  const few = peakMemory(fileURLToPath(file), ticks / 10);
  const many = peakMemory(fileURLToPath(file), 10 * ticks);
  put(`peak memory, ${ticks / 10} ticks`, few, "MB");
  put(`peak memory, ${10 * ticks} ticks`, many, "MB", "goal: < 120");
  if (isBuilt()) {
    starts();
    ensembles();
  } else console.log("  no commands: the program is not built (npm run build)");
}

function starts(): void {
  console.log("whole commands over node -e 0, wall time");
  for (const [words, goal] of [
    ["--version", 2.5],
    ["check observatory", 5],
    ["budget observatory", 10],
  ] as const) {
    put(words, startRatio(words, isQuick ? 3 : 15), "times", `goal: < ${goal}`);
  }
}

function ensembles(): void {
  const runs = isQuick ? 8 : 400;
  const isPinned = canPin();
  const times = Array.from({ length: Math.min(3, rounds) }, () => ({
    one: sweepTime(runs, 1),
    pinned: isPinned ? sweepTime(runs, 1, true) : null,
    two: sweepTime(runs, 2),
  }));
  const middle = (value: (time: (typeof times)[number]) => number) => median(times.map(value));
  console.log(`${runs} runs of 1e6 s at a gate of 100 s, the whole command`);
  put(
    "one worker",
    middle(({ one }) => one.wall),
    "s",
  );
  put(
    "two workers",
    middle(({ two }) => two.wall),
    "s",
  );
  put(
    "one over two, wall time",
    middle(({ one, two }) => one.wall / two.wall),
    "times",
  );
  if (isPinned) {
    const onOneCore = middle(({ pinned, two }) => pinned!.wall / two.wall);
    put("one, kept on one core, over two, wall time", onOneCore, "times");
  }
  put(
    "two over one, CPU time",
    middle(({ one, two }) => two.cpu / one.cpu),
    "times",
  );
  put("CPU time of one worker, a run", (middle(({ one }) => one.cpu) / runs) * 1e3, "ms");
}

function main(): void {
  figures.machine = `${cpus().length} x ${cpus()[0]?.model}`;
  figures.node = process.versions.node;
  figures.date = new Date().toISOString().slice(0, 10);
  figures.ticks = ticks;
  figures.rounds = rounds;
  console.log(`${figures.machine}, Node ${figures.node}; ${ticks} ticks, ${rounds} rounds`);
  chains();
  tools();
  machine();
  mkdirSync("out", { recursive: true });
  writeFileSync("out/bench.json", `${JSON.stringify(figures, null, 2)}\n`);
  console.log("written to out/bench.json");
}

if (!runForMemory()) main();
