import { sample, spoilt } from "../../scenario/sample.ts";
import type { Sample } from "./sample.ts";

/** A scenario text, and what `check` says to it. */
const text = (content: string | Uint8Array, says: RegExp): Sample => ({
  args: "check s.yaml",
  files: { "s.yaml": content },
  says,
});

/** The whole chain with overrides, and what `check` says to it. */
const set = (sets: string | readonly string[], says: RegExp): Sample => ({
  args: ["check", "s.yaml", ...[sets].flat().flatMap((one) => ["--set", one])],
  files: { "s.yaml": sample },
  says,
});

const phaseNoise = (points: string) =>
  `reference.noise={ phase_noise: { carrier_hz: 10e6, dbc_hz: { ${points} } } }`;

const withoutChain = sample.replace(/^synthesizer:[\s\S]*?^counter:/m, "counter:");
const withoutDrive = sample.replace(/^drive:.*\n/m, "");
const withoutReceiver = sample.replace(/^receiver:[\s\S]*?^counter:/m, "counter:");
const quiet = withoutChain.replace(/^disturbances:[\s\S]*/m, "");

/** Texts that are no scenario at all. */
export const textSamples: readonly Sample[] = [
  text("", /^tickwright: s\.yaml:1:1: is empty; begin with a copy of a demo/),
  text("# nothing\n", /s\.yaml:1:1: holds nothing but comments; begin with/),
  text("--- 5\n", /is no scenario: it must have keys with values, such as length_s/),
  text(Uint8Array.of(0x61, 0x3a, 0x20, 0xff), /s\.yaml:1:4: is not text in UTF-8.*; save it as/),
  text("a: [1, 2\nb: }", /s\.yaml:2:1: is not YAML: /),
  text(`${"[".repeat(50)}${"]".repeat(50)}`, /is nested more than 40 deep/),
  text(`a: [${"1,".repeat(60_000)}]`, /has more than 50000 keys and values/),
  text(`a: "${"x".repeat(1_020_000)}"`, /is longer than 1 MB, so this is no scenario; give/),
  text("a: 1\n---\nb: 2\n", /s\.yaml:2:1: holds several documents; a scenario is one/),
  text("%YAML 1.1\n---\na: 1\n", /must be YAML 1\.2; leave the %YAML line out/),
  text("a: !!str b\n", /s\.yaml:1:\d+: the tag .* is not used in scenarios; leave it out/),
  text("a: !!set {b}\n", /s\.yaml:1:\d+: the tag .* is not used in scenarios; leave it out/),
  text("a: *b\n", /s\.yaml:1:4: (?:the alias \*b has no anchor before it; write|is not YAML)/),
  text("a: &a { b: *a }\n", /s\.yaml:1:12: the alias \*a stands in what it names; write/),
  text("{ a: 1, a: 2 }", /s\.yaml:1:9: the key "a" is given twice; keep one/),
  text("? [a]\n: 1\n", /s\.yaml:1:\d+: a key must be plain text; write it as/),
  text(
    `a: &a [${"x,".repeat(9)}]\nb: &b [${"*a,".repeat(99)}]\nc: [${"*b,".repeat(99)}]\n`,
    /has more aliases than any scenario needs; write values out/,
  ),
];

/** Keys and values that are not as they must be. */
export const keySamples: readonly Sample[] = [
  set(
    "drive.burts_s=1",
    /--set drive\.burts_s=1: drive\.burts_s: unknown key; did you mean burst_s/,
  ),
  set("reference.noise.jitter_rms_s=1e-12", /says nothing of a clock's second; give points of/),
  set("reference.noise.jitter_pp_s=1e-12", /a peak-to-peak value is no rms: .*; of N edges of/),
  set("drive.amplitude_vrms=8", /states the same as amplitude_v; keep one of the two/),
  set("drive.amplitude_v=null", /drive\.amplitude_v: is missing; it is a number: .*amplitude_vrms/),
  set(phaseNoise("1: -90"), /dbc_hz: must have two points at least; write/),
  set(phaseNoise("a: -90, 2: -99"), /dbc_hz\.a: must stand at an offset in Hz, .*; such as/),
  set(phaseNoise("1: 90, 2: 80"), /dbc_hz\.1: must be from -300 to -20 dBc\/Hz, got 90/),
  set(
    phaseNoise("1: -90, 2: -80"),
    /dbc_hz\.2: rises from -90 dBc\/Hz at 1 Hz to -80.*; leave out/,
  ),
  set(["counter.technique=time_interval", "log={}"], /log: holds periods, and .*; leave it out/),
  set("burst_s=1", /burst_s: unknown key; it belongs in drive/),
  set("drive.qqq=1", /unknown key; known here: carrier_hz, /),
  set("length_s=soon", /length_s: must be a number, got the text "soon"/),
  set('length_s="60"', /got the text "60"; leave out the quotes/),
  set('length_s="1_000"', /got the text "1_000"; write 1000: digits are not grouped/),
  set('length_s="1,5"', /got the text "1,5"; write 1\.5: the decimal sign is a point/),
  set("length_s=60 s", /got the text "60 s"; write the number alone: its unit is in the name/),
  set("length_s=[1]", /length_s: must be a number, got a list/),
  set("length_s={a: 1}", /length_s: must be a number, got a section/),
  set("length_s=.inf", /length_s: must be a finite number, got Infinity; write one such as/),
  set("length_s=-1", /length_s: must be > 0, got -1/),
  set(
    "length_s=1e300",
    /length_s: must be at most 1000000000000 s in size, got 1e\+300; nothing in/,
  ),
  set("drive.burst_s=1e-30", /must be 0 or at least 1e-24 s in size, got 1e-30; write 0/),
  set("length_s=null", /length_s: is missing; it is a number: Simulated length of a run; s/),
  set("title=7", /title: must be a text, got 7; put it in quotes/),
  set("receiver.steps_per_tick=1.5", /steps_per_tick: must be a whole number, got 1\.5/),
  set("receiver.leak=maybe", /leak: must be true or false, got the text "maybe"/),
  set("disturbances=5", /disturbances: must be a list, got 5/),
  text(sample.replace("{ mean_c: 20 }", ""), /environment: must be a section, got nothing; remove/),
  set("drive.carrier_lock=lokced", /must be one of free, locked; got the text "lokced"; did you/),
  set("disturbances.0.kind=drive_of", /must be one of drive_off, .*; did you mean drive_off\?/),
  set("disturbances.0.kind=null", /disturbances\.0\.kind: is missing: one of drive_off, /),
  set(
    "disturbances=[{kind:drive_off,at_s: 1,for_s: 2}]",
    /disturbances\.0\.kind: is missing: one of drive_off, .*; put a blank after the colon/,
  ),
  set('seed=""', /seed: must (?:not be empty|be a text of at least one sign)/),
  set("seed=true", /seed: must be a text of at least one sign, got true/),
  set("seed=12345678901234567890", /seed: has more digits than a number can keep; put the seed in/),
  set(
    "counter.gate_s=0",
    /gate_s: must be (?:> 0|a number of seconds > 0, or the word single), got 0/,
  ),
  set("counter.timebase=mine", /must be the word reference, or a section with fractional_offset/),
  set("counter.timebase={ofset: 1}", /timebase\.ofset: unknown key/),
  set(
    ["reference.noise.white_pm_rms_s=1e-9", "reference.noise.h={h2: 1e-9}"],
    /reference\.noise\.h\.h2: states the same noise as white_pm_rms_s; keep one of the two/,
  ),
  text(`a0: 1\n${[...Array(30).keys()].map((i) => `b${i}: 1\n`).join("")}`, /and \d+ more faults/),
];

/** Overrides that have not the form they must have. */
export const overrideSamples: readonly Sample[] = [
  set("gate", /--set gate: must have the form PATH=VALUE; for example counter\.gate_s=10/),
  set("counter..gate_s=1", /has an empty key in its path; write keys joined by dots/),
  set("length_s=", /length_s: has no value; write it behind the =, or null/),
  set("length_s=[1", /--set length_s=\[1: length_s: is not YAML/),
  set("length_s.x=1", /length_s\.x: length_s is a value and has no keys; set length_s itself/),
  set("disturbances.9.at_s=1", /disturbances is a list of 2; use an index from 0 to 2/),
];

/** Sections that need others. */
export const structureSamples: readonly Sample[] = [
  text(withoutReceiver, /s\.yaml:\d+:1: drive: needs a receiver: without one .*; add a receiver/),
  text(withoutDrive, /receiver: needs a drive: without one it hears no bursts; add a drive/),
  text(
    sample.replace(/^synthesizer:[\s\S]*?^drive:/m, "drive:"),
    /drive: needs a synthesizer: its edges open the bursts; add a synthesizer/,
  ),
  text(
    quiet.replace("counter: {", "counter: { input: synthesizer,"),
    /counter\.input: is synthesizer, but the scenario has none; use clock or reference/,
  ),
  set("counter.gate_s=null", /counter\.gate_s: is missing; a number of seconds > 0, or the word/),
  text(
    withoutDrive.replace(/^receiver:[\s\S]*?^counter:/m, "counter:").replace(/^dist[\s\S]*/m, ""),
    /synthesizer: drives nothing: the counter looks at the clock, .*; add drive and receiver, or/,
  ),
  text(
    quiet.replace("10e6", "0.1"),
    /reference\.nominal_hz: is slower than the 1 Hz of the clock that divides it; raise it/,
  ),
  set(
    "reference.noise.flicker_longest_s=1e-9",
    /flicker_longest_s: is not above the shortest relaxation time, .*; raise it, or raise bandwidth/,
  ),
  set(
    ["reference.noise.flicker_pm_adev_1s=1e-9", "reference.noise.bandwidth_hz=0.01"],
    /flicker_pm_adev_1s: does not fix the noise .*; give h: \{ h1: … \} instead, or a bandwidth_hz/,
  ),
];

/** Values that are well formed and make no sense together. */
export const senseSamples: readonly Sample[] = [
  set(
    ["counter.technique=time_interval", "counter.gate_s=1.5"],
    /gate_s: must be a whole number of seconds, got 1\.5: .*; use 2/,
  ),
  set(
    "counter.gate_s=0.5",
    /gate_s: is shorter than the 1 s from edge to edge .*; lengthen it, or/,
  ),
  set("counter.gate_s=20001", /is longer than the run of 20000 s; shorten it, or raise length_s/),
  set(
    "counter.trigger_noise_s=60",
    /trigger_noise_s: is as long as the 50 s .*; lower it; it is in/,
  ),
  set(
    "counter.gate_max_s=10",
    /is longer than gate_max_s, 10 s; shorten it, or raise counter\.gate_max_s/,
  ),
  set(
    ["counter.input=reference", "length_s=1e12"],
    /length_s: holds more edges of the reference than can be counted .*; shorten the run, or/,
  ),
  set(
    "clock.bounce.within_s=1",
    /bounce\.within_s: is as long as the 1 s from tick .*; shorten it/,
  ),
  set(
    "disturbances.2={kind: drive_rate, at_s: 300, for_s: 9, output_hz: 17}",
    /leaves 0\.0588 s from burst to burst, and a burst lasts 0\.06 s; lower it, or shorten drive/,
  ),
  text(
    withoutChain,
    /disturbances\.0\.kind: is drive_off, but the scenario has no drive; leave it out, or add/,
  ),
  text(
    spoilt("kind: missed_step, at_s: 200", "kind: drive_off, at_s: 95, for_s: 10"),
    /disturbances\.0\.at_s: falls into disturbances\.1, which is of the same kind; join the two/,
  ),
  set(
    "drive.carrier_hz=1e-3",
    /carrier_hz: .*more than 100 time constants of the receiver; raise it/,
  ),
  set("drive.carrier_hz=1e12", /carrier_hz: puts .* cycles into a burst, more than .*; lower it/),
  set("receiver.time_constant_s=1e6", /time_constant_s: is longer than 1000 times .*; shorten it/),
  set("drive.rise_s=0.1", /rise_s: is longer than the 0\.06 s of a burst; shorten it/),
  set("drive.burst_s=0.2", /burst_s: is as long as the 0\.2 s from burst to burst, .*; shorten it/),
  set(
    "receiver.threshold_v=99",
    /threshold_v: cannot be reached: a burst brings .*; lower it, or raise/,
  ),
  set("receiver.fallback.after_s=0.1", /after_s: is not longer than .* never be heard; raise it/),
  set("reference.noise.random_walk_fm_adev_1s=9", /noise: is so large .*; levels are fractions/),
  set(
    "reference.aging_per_day=9",
    /aging_per_day: adds up to .*; it is a fraction a day, not parts/,
  ),
  set("synthesizer.setting_step_hz=20", /setting_step_hz: is so coarse .* is 0; make it finer/),
];
