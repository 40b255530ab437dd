import { NoisePosterior, OnlineBank, settle, toEvents } from "../../src/noise-model/index.ts";
import { readingsOf } from "./coverage.ts";
import { Deviates, makeRecord } from "./generators.ts";

const now = () => process.cpuUsage().user / 1e3;
for (const size of [100, 400, 1000, 10000, 1000000])
  for (const [name, recipe] of Object.entries({
    pm: { pm: 1, wfm: 0, ffm: 0, rw: 0 },
    fm: { pm: 0, wfm: 1, ffm: 0, rw: 0 },
  })) {
    const { stamps } = makeRecord(size, recipe, new Deviates(size));
    const record = readingsOf(stamps, "back to back");
    let t = now();
    const e = toEvents(record);
    const t1 = now() - t;
    t = now();
    const p0 = new NoisePosterior(e, {}, false);
    const t2 = now() - t;
    t = now();
    const { posterior, faults } = settle(record);
    const t3 = now() - t;
    t = now();
    const s = posterior.steady(),
      o = posterior.overRun();
    const t4 = now() - t;
    t = now();
    const n = posterior.readingsFor((s.high - s.low) / 4, "steady");
    const t5 = now() - t;
    console.log(
      size,
      name,
      "events",
      e.events.step.length,
      t1.toFixed(0),
      "grid",
      t2.toFixed(0),
      "nodes",
      p0.nodes.length,
      "settle",
      t3.toFixed(0),
      "faults",
      faults.length,
      "intervals",
      t4.toFixed(0),
      "longer",
      n / size,
      t5.toFixed(0),
      "ratio",
      (
        (s.high - s.low) /
        3.92 /
        (name === "pm" ? Math.sqrt(12 / size ** 3) : Math.sqrt(1 / size))
      ).toFixed(2),
      ((o.high - o.low) / 3.92 / Math.sqrt(12 / size ** 3)).toFixed(3),
      (process.memoryUsage().rss / 1e6) | 0,
    );
  }
{
  const { stamps } = makeRecord(1000, { pm: 1, wfm: 0, ffm: 0, rw: 0 }, new Deviates(3));
  const r = readingsOf(stamps, "back to back");
  const b = new OnlineBank();
  for (let i = 0; i < 520; i++) b.add({ length: 1, gain: r.gain[i]!, gap: 0, gapGain: NaN });
  let t = now();
  for (let i = 520; i < 1000; i++) b.add({ length: 1, gain: r.gain[i]!, gap: 0, gapGain: NaN });
  console.log("online ms a reading", (now() - t) / 480);
  t = now();
  for (let i = 0; i < 20; i++) b.slopes();
  console.log("slopes", (now() - t) / 20);
}
