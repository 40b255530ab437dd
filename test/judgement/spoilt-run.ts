import { RunRecord, Simulation, settleRun } from "../../src/chain/index.ts";
import { judgeReadings } from "../../src/judgement/index.ts";
import { readLog } from "../../src/log/index.ts";
import { estimateTruths } from "../../src/planning/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";
import { BenchLog } from "../../src/view/table/index.ts";
import { demo } from "../scenario/sample.ts";

const gate = 50;

/** A run of the observatory's clock of 400 readings, with a perfect time base, its log, and what is true. */
export function spoiltRun(seed: string, log: string) {
  const sets = ["counter.timebase={}", `log=${log}`];
  const { scenario } = parseScenario(demo("observatory"), "observatory", sets);
  const request = {
    length: null,
    readings: null,
    recording: null,
    wantsTicks: false,
    wantsBursts: false,
  };
  const { options } = settleRun(scenario, { ...request, seed });
  const record = RunRecord.of(scenario);
  let text = "";
  const bench = new BenchLog(scenario.log!, seed, (piece) => {
    text += piece;
  });
  const reading: ConstructorParameters<typeof Simulation>[2]["reading"] = (reading) => {
    record.add(reading);
    bench.take(reading);
  };
  new Simulation(scenario, options, { reading }).run();
  const said = bench.end();
  return {
    text,
    said,
    rate: estimateTruths(scenario, record.read()).end_to_end.rateOverRun,
    scenario,
  };
}

/** What is made of a log by whoever knows its bench. */
export function judged(text: string, nominalPeriod: number) {
  const made = readLog(text, { file: "log.txt", nominalPeriod, gate, backToBack: true });
  const judgement = judgeReadings(made.readings);
  const lineOf = (reading: number) => made.readings.line?.[reading];
  const of = (code: string) =>
    made.notes.filter((note) => note.code === code).map(({ line }) => line);
  return {
    junk: of("skipped_line").filter((line) => line !== null),
    cut: of("cut_line"),
    skipped: Number(/(\d+) lines? skipped/.exec(made.detected)?.[1] ?? 0),
    doubled: judgement.findings
      .filter(({ code }) => code === "repeated_reading")
      .map(({ reading }) => lineOf(reading!)),
    notes: made.notes,
    findings: judgement.findings,
    headline: judgement.headline,
  };
}

/** Whether the 95 % interval over the run holds the true rate, about one line in a hundred being lost. */
export function holdsTruth(seed: string): boolean {
  const { text, rate, scenario } = spoiltRun(
    seed,
    `{ format: stamped, lost_line_probability: 0.01 }`,
  );
  const { headline } = judged(text, 1 / scenario.clock.tickHz);
  if (headline === null) throw new Error(`no answer for ${seed}`);
  const [low, high] = headline.overRun.interval95;
  return low <= rate && rate <= high;
}
