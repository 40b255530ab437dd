import type { Sample } from "./sample.ts";

const said = (
  args: string | readonly string[],
  says: RegExp,
  more: Partial<Sample> = {},
): Sample => ({
  args,
  says,
  ...more,
});

const plan = "plan school-laboratory";

const numbers = "1.000001\n1.000002\n1.000004\n1.000003\n1.000001\n";
const watchSamples: readonly Sample[] = [
  said("watch /dev/null --until-known", /--until-known and --hide-rate need a goal: give --within/),
  said(
    "watch /dev/null --within 1e-9 --timebase 1e-8",
    /the time base alone may be off by ±0\.86\d* ms\/day, which no waiting narrows; ask for more/,
  ),
  said(
    "watch /dev/null --log a.txt",
    /a\.txt is there and is no log of watch; give --log another/,
    {
      files: { "a.txt": numbers },
    },
  ),
  said("watch /dev/null --log /dev/null", /\/dev\/null is no file; give --log a file/),
  said("watch a.txt --log b.log", /a\.txt is a file and keeps its lines itself; --log is for/, {
    files: { "a.txt": numbers },
  }),
  said("watch wide.txt", /wide\.txt: is UTF-16, which is not read as it comes; judge reads it/, {
    files: { "wide.txt": Buffer.from(`\ufeff${numbers}`, "utf16le") },
  }),
  said("watch none.txt", /none\.txt: could not read: there is no such file/, { status: 3 }),
  said("watch .", /\.: could not read: it is a folder; give a file/, { status: 3 }),
  said("watch /dev/null --log no/b.log", /no\/b\.log: could not write: there is no such file/, {
    status: 3,
  }),
  said("compare a.txt", /two records or more are compared; give another one/),
  said("compare a.txt a.txt --timebase-moves 1e-9", /give --same-timebase too/),
  said("compare few.txt a.txt", /few\.txt: has no rate to compare: .* too few/, {
    files: { "few.txt": "1.000001\n1.000002\n", "a.txt": numbers },
  }),
];

/** Command lines that ask for what there is not, or makes no sense. */
export const commandSamples: readonly Sample[] = [
  said("rum observatory", /^tickwright: unknown command 'rum'\n?\(?Did you mean run\?/),
  said("", /Usage: tickwright/, { isPlainOnly: true }),
  said("run", /missing required argument 'scenario'/),
  said("run observatory --sed 4", /unknown option '--sed'\n?\(Did you mean [^)]*--seed/),
  said("run observatory --pace 1", /--pace goes with --out -: readings to standard output/),
  said("new a.yaml --tick 0", /^tickwright: --tick 0: give a number: s/),
  said("new a.yaml", /a\.yaml: is there already; give another name, or --force/, {
    files: { "a.yaml": "title: mine" },
  }),
  said("new none/a.yaml --drive itself", /none\/a\.yaml: could not write: /, { status: 3 }),
  said("judge r.csv --taus all", /its name is --averaging-times/),
  said("run observatory --plot --size a3", /must be a4, a5, letter, or WIDTHxHEIGHT/),
  said("run observatory --size a4", /--size, --title and --unit are for pictures: give --plot too/),
  said("run observatory extra", /too many arguments/),
  said("run observatory --seed", /option '--seed <seed>' argument missing/, {
    isPlainOnly: true,
  }),
  said(
    "run observatry",
    /observatry: there is no such file, and no demo of that name; did you mean obs/,
  ),
  said("run qqq", /qqq: there is no such file, and no demo of that name; the demos are harbour/),
  ...watchSamples,
  said("completion tcsh", /argument value 'tcsh' is invalid.*must be one of bash, zsh, fish/),
  said("completion zhs", /did you mean zsh\?/),
  said("run observatory --recording lasy", /did you mean lazy\?/),
  said("run observatory --readings 0", /--readings.*must be a whole number of at least 1/),
  said(
    "run observatory --length soon",
    /must be a length of time above 0 such as 20000, 6h or 30d/,
  ),
  said("run observatory --length 0", /must be a length of time above 0 such as 20000, 6h or 30d/),
  said("run observatory --length 1e300", /must be at most 10000000000000000 s/),
  said("run observatory --gate 0", /^tickwright: --gate 0: counter\.gate_s: must be /),
  said(
    "run observatory --dead-time=-1",
    /^tickwright: --dead-time -1: counter\.dead_time_s: must be >= 0/,
  ),
  said(
    "budget observatory --gate x",
    /^tickwright: --gate x: counter\.gate_s: must be a number of/,
  ),
  said("judge r.csv --out=", /--out: must not be empty; give a name, or leave it out/),
  said("judge r.csv --nominal-period 1e-310", /must be a number of at least 1e-16/),
  said("judge r.csv --gate -1", /must be a number above 0/),
  said("judge r.csv --dead-time=-1", /must be a number of at least 0/),
  said("judge r.csv --gate 1e300", /must be at most 10000000000000000/),
  said(plan, /give either --within or --length/),
  said(`${plan} --length 6h --plot`, /--plot goes with --within/),
  said(`${plan} --within good`, /must be an accuracy such as 1e-9, 0\.5ppm or "2 ms\/day"/),
  said(`${plan} --within 2`, /must be below 1, which is 86400 s\/day/),
  said(
    `${plan} --within 1e-6 --confidence 1`,
    /must be a probability above 0 and below 1, such as/,
  ),
];

/** The smallest sweep there is. */
const sweep = "sweep school-laboratory --length 5";
const dead = "counter.dead_time_s";

/** Sweeps and merges that cannot be done. */
export const sweepSamples: readonly Sample[] = [
  said("sweep school-laboratory", /nothing is varied: give --vary PATH=V1,V2,\.\. or --seeds/),
  said(`${sweep} --vary gate`, /--vary gate: must have the form PATH=V1,V2,\.\., for example/),
  said(`${sweep} --seeds 2 --seed =1`, /"=1": would be run as a formula where a spreadsheet opens/),
  said(`${sweep} --vary seed=1,2`, /seeds are varied by --seeds/),
  said(`${sweep} --vary title=a,b`, /a title changes nothing; vary a number/),
  said(`${sweep} --vary ${dead}=0,,1`, /has an empty value between its commas; write one, or/),
  said(
    [...sweep.split(" "), "--vary", `${dead}=0,1\n`],
    /line break or control character in it; write/,
  ),
  said(`${sweep} --vary ${dead}=0,0.0`, /has the value 0\.0 twice; keep one of the two/),
  said(`${sweep} --vary ${dead}=0,[1`, /--vary counter\.dead_time_s=\[1: .*is not YAML|has the/),
  said(
    `${sweep} --vary ${dead}=0,-1`,
    /^tickwright: --vary counter\.dead_time_s=-1: .*must be >= 0/,
  ),
  said(`${sweep} --vary ${dead}=0 --vary ${dead}=1`, /is there twice; give all its values at once/),
  said(
    `${sweep} --seeds 100000001`,
    /a sweep of 100000001 runs is too large; the most is 1e8: vary/,
  ),
  said(
    `${sweep} --seeds 2 --shard 0/2`,
    /--shard 0\/2: must have the form I\/N, with I from 1 to N/,
  ),
  said(
    `${sweep} --seeds 2 --shard 3/3`,
    /a sweep of 2 runs has no part 3; use no more parts than runs/,
  ),
  said(
    [...sweep.split(" "), "--seeds", "2", "--seed", "a\nb"],
    /--seed: must not have a line break or control character in it/,
  ),
  said(
    "sweep s.yaml --seeds 2 --resume",
    /the scenario has no seed of its own: give --seed, so that it goes on with the same seeds/,
    {
      files: {
        "s.yaml":
          "length_s: 9\nclock: {tick_hz: 1}\nreference: {nominal_hz: 1}\ncounter: {gate_s: 1}\n",
      },
    },
  ),
];
