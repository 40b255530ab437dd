import {
  appendFileSync,
  closeSync,
  copyFileSync,
  existsSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { sealed } from "../../../src/cli/index.ts";
import type { Sample } from "./sample.ts";

const run = "run school-laboratory --readings 3 --quiet --out o";
const part = (i: number, more = "") =>
  `sweep school-laboratory --length 5 --seeds 2 --shard ${i}/2 --out p${i} --quiet${more}`;

/** Changes a file of a folder. */
const edited = (name: string, change: (text: string) => string) => (cwd: string) => {
  const path = join(cwd, name);
  writeFileSync(path, change(readFileSync(path, "utf8")));
};
const folder = (name: string) => (cwd: string) => mkdirSync(join(cwd, name), { recursive: true });
/** A file of a size without its bytes. */
const sized = (name: string, bytes: number) => (cwd: string) => {
  const fd = openSync(join(cwd, name), "w");
  ftruncateSync(fd, bytes);
  closeSync(fd);
};

const file = 3;

/** Files and folders that cannot be read or written, or are not what they should be. */
export const fileSamples: readonly Sample[] = [
  {
    args: "check none.yaml",
    status: file,
    says: /^tickwright: none\.yaml: could not read: there is no such file or folder; look at/,
  },
  { args: "check .", status: file, says: /\.: could not read: it is a folder; give a file/ },
  {
    args: "judge none.csv",
    status: file,
    says: /none\.csv: could not read: there is no such file/,
  },
  {
    args: "check s.yaml",
    prepare: sized("s.yaml", 1e8),
    says: /s\.yaml: is larger than a scenario can be \(1 MB\); give the scenario itself/,
  },
  {
    args: "judge r.csv",
    prepare: sized("r.csv", 500_000_001),
    says: /r\.csv: is larger than 500 MB; give its readings in several files/,
  },
  {
    args: `${run}/x`,
    files: { o: "" },
    status: file,
    says: /o\/x: could not make this folder: a part of the path is not a folder; look/,
  },
  {
    args: run,
    before: [run],
    says: /o\/readings\.csv exists already; give --force to replace it, or another place/,
  },
  {
    args: `${run} --force`,
    prepare: folder("o/readings.csv"),
    says: /o\/readings\.csv is there and is no file, so it is not replaced; give another name/,
  },
  {
    args: run,
    prepare: folder("o/.tickwright-lock"),
    status: file,
    says: /o: could not write here: another run is writing to this folder; wait for it, or give another/,
  },
  {
    args: run,
    isDiskFull: true,
    status: file,
    says: /o\/readings\.csv: could not write: no space is left on the device; free some, or give/,
  },
  ...(existsSync("/proc/self")
    ? [
        {
          args: `${run} --out /proc/self`,
          status: file,
          says: /\/proc\/self: could not write in this folder: /,
        },
      ]
    : []),
  {
    args: `lesson school-laboratory --out ${"x".repeat(250)}.html`,
    status: file,
    says: /x\.html: could not write: the name is too long; use a shorter one/,
  },
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back --out f.yaml",
    isPlainOnly: true,
    files: {
      "r.csv": [...Array(40).keys()].map((i) => `${1 + 1e-3 * ((i * Math.SQRT2) % 1)}\n`).join(""),
      "f.yaml": "",
    },
    says: /^tickwright: f\.yaml exists already; give --force to replace it, or another place/,
  },
  {
    args: "fit r.csv --nominal-period 1 --gate 1 --back-to-back --out f.yaml --force",
    isPlainOnly: true,
    files: {
      "r.csv": [...Array(40).keys()].map((i) => `${1 + 1e-3 * ((i * Math.SQRT2) % 1)}\n`).join(""),
      "f.yaml/x": "",
    },
    says: /f\.yaml is there and is no file, so it is not replaced; give another name/,
  },
  {
    args: "replay .",
    status: file,
    says: /datapackage\.json: could not read: there is no such file/,
  },
  {
    args: "replay .",
    files: { "datapackage.json": "{" },
    says: /datapackage\.json: is not JSON: .*; give a folder written by run/,
  },
  {
    args: "replay .",
    files: { "datapackage.json": "{}" },
    says: /holds no provenance of a run \(.*\); give a folder written by run/,
  },
  {
    args: "replay o",
    before: [run],
    prepare: edited("o/datapackage.json", (t) =>
      t.replace('"was_interrupted": false', '"was_interrupted": true'),
    ),
    says: /o: the run was interrupted, so it cannot be repeated to its last row; run it again/,
  },
  {
    args: "replay o",
    before: [run],
    prepare: (cwd) => rmSync(join(cwd, "o/readings.csv")),
    status: file,
    says: /o\/readings\.csv: could not read: there is no such file/,
  },
  {
    args: "replay o",
    before: [run],
    prepare: edited("o/readings.csv", (t) => `${t}x`),
    status: 1,
    says: /readings\.csv: DIFFERS: the file on disk is not the one that was written/,
  },
  {
    args: "replay o",
    before: [run],
    prepare: edited("o/datapackage.json", (t) =>
      t
        .replace(/("readings\.csv": ")[0-9a-f]{64}/, `$1${"0".repeat(64)}`)
        .replace(/("version": ")[^"]*/, "$10.0.0"),
    ),
    status: 1,
    says: /readings\.csv: DIFFERS: run again it comes out otherwise\n[\s\S]*It was written by version 0\.0\.0/,
  },
  { args: "merge a b", says: /give the folder for the result with --out/ },
  {
    args: "merge a --out w",
    prepare: folder("a"),
    says: /^tickwright: a: no sweep is there; give folders written by sweep/,
  },
  {
    args: "merge p1 --out w",
    before: [part(1)],
    prepare: (cwd) => writeFileSync(join(cwd, "p1/.sweep-journal"), ""),
    says: /p1: is not finished; go on with it by sweep --resume/,
  },
  {
    args: "merge a --out w",
    files: { "a/summary.csv": "", "a/datapackage.json": "{}" },
    says: /a\/datapackage\.json: is not the descriptor of a sweep; give a folder written by sweep/,
  },
  {
    args: "merge a --out w",
    files: { "a/summary.csv": "", "a/datapackage.json/x": "" },
    status: file,
    says: /a\/datapackage\.json: could not read: it is a folder/,
  },
  {
    args: "merge a --out w",
    before: ["sweep school-laboratory --length 5 --seeds 2 --out a --quiet"],
    prepare: (cwd) => {
      rmSync(join(cwd, "a/summary.csv"));
      mkdirSync(join(cwd, "a/summary.csv"));
    },
    status: file,
    says: /a\/summary\.csv: could not read: it is a folder/,
  },
  {
    args: "merge p1 p2 --out w",
    before: [part(1), part(2, " --seed other")],
    says: /p1 and p2 are parts of different sweeps: they differ in --seed; merge one sweep at a time/,
  },
  {
    args: "merge p1 p --out w",
    before: [part(1), "sweep school-laboratory --length 5 --seeds 2 --out p --quiet"],
    says: /p1 is a part of 2, p one of 1; merge one sweep at a time/,
  },
  {
    args: "merge p1 p1 --out w",
    before: [part(1)],
    says: /p1 and p1 are both part 1 of 2; give each part once/,
  },
  {
    args: "merge p1 --out w",
    before: [part(1)],
    says: /missing: --shard 2\/2; sweep them, and give their folders too/,
  },
  {
    args: "merge p1 p2 --out w",
    before: [part(1), part(2)],
    prepare: (cwd) => appendFileSync(join(cwd, "p2/summary.csv"), "x"),
    says: /p2\/summary\.csv: is not the file that was written: its digest differs; sweep that part again/,
  },
  {
    // A part under another part's name: its digest is its own, its rows are not.
    args: "merge p1 p2 --out w",
    before: [part(1), part(2)],
    prepare: (cwd) => {
      copyFileSync(join(cwd, "p1/datapackage.json"), join(cwd, "p2/datapackage.json"));
      copyFileSync(join(cwd, "p1/summary.csv"), join(cwd, "p2/summary.csv"));
      edited("p2/datapackage.json", (t) =>
        JSON.stringify(sealed(JSON.parse(t.replace(/("shard": \{\s*"index": )1/, "$12")))),
      )(cwd);
    },
    says: /p2\/summary\.csv: the row of .*-2 is missing; sweep that part again/,
  },
  {
    args: `${part(1)} --force`,
    prepare: folder("p1/.sweep-journal"),
    says: /p1\/\.sweep-journal: is no file that sweep wrote; take it away, or give another folder/,
  },
  {
    args: part(1),
    isDiskFull: true,
    status: file,
    says: /p1\/\.sweep-journal: could not write: no space is left on the device/,
  },
  {
    args: "merge p1 p2 --out w",
    before: [part(1), part(2)],
    prepare: edited("p1/datapackage.json", (t) => t.replace('"rows": 1', '"rows": 2')),
    says: /p1\/datapackage\.json: was changed since it was written; sweep that part again/,
  },
  {
    args: part(1),
    before: [part(1)],
    prepare: (cwd) => writeFileSync(join(cwd, "p1/.sweep-journal"), ""),
    says: /p1: an unfinished sweep is there; go on with it by --resume, or give --force to begin anew/,
  },
  {
    args: `${part(1)} --resume --seed other`,
    before: [part(1)],
    says: /p1: the sweep there is another one; it differs in --seed/,
  },
];
