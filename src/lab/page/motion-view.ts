import { times } from "../lesson/amounts.ts";
import type { Settings } from "../lesson/settings.ts";
import { button, element } from "./element.ts";
import { type MotionPicture, motionPicture } from "./motion-picture.ts";
import { MotionSound } from "./motion-sound.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/** How much slower than the clock; a picture of a span of 10 ms then lasts 3 s. */
const slowest = 3;
/** Rest between ticks; s. */
const rest = 0.8;
/** Ticks shown before the first comes again. */
const ticks = 19;

/**
 * The chain in motion, tick by tick, from the engine itself. It runs by itself unless less motion is wished for, and
 * can be stopped and stepped.
 *
 * @param client - asks the engine
 */
export function motionView(client: WorkerClient) {
  const sound = new MotionSound();
  const stage = element("div", { class: "motion-stage" });
  const words = element("p", { class: "motion-words" });
  const live = element("p", { class: "visually-hidden", role: "status" });
  const play = button("Pause", () => setPlaying(!isPlaying), { class: "main" });
  const hear = button("Sound: off", () => {
    sound.toggle();
    hear.textContent = `Sound: ${sound.isOn ? "on" : "off"}`;
  });
  const bar = element(
    "div",
    { class: "buttons" },
    play,
    button("Next moment", () => step()),
    button("Next tick", () => {
      setPlaying(false);
      void load(tick + 1, 1);
    }),
    hear,
  );
  let seed = "";
  let tick = 1;
  let picture: MotionPicture | null = null;
  let share = 0;
  let isPlaying = !matchMedia("(prefers-reduced-motion: reduce)").matches;
  let isRunning = false;
  let since = 0;

  async function load(number: number, at: number): Promise<void> {
    tick = ((number - 1) % ticks) + 1;
    try {
      const answer = await client.ask("motion", { seed, tick }, "motion");
      picture = motionPicture(answer, tick, Math.max(320, Math.min(760, stage.clientWidth || 720)));
    } catch (error) {
      if (error instanceof Voided) return;
      words.textContent = `This could not be worked out: ${(error as Error).message}`;
      return;
    }
    stage.replaceChildren(picture.svg);
    words.textContent = `${picture.words} Slowed ${times(slowest / picture.span)}.`;
    if (!isPlaying) live.textContent = picture.words;
    go(at);
    void client.ask("motion", { seed, tick: (tick % ticks) + 1 }, "motion-ahead").catch(() => {});
  }

  function go(to: number): void {
    if (picture === null) return;
    const [edge, , crossing] = picture.events;
    if (share < edge! && to >= edge! && isPlaying) sound.tone((crossing! - edge!) * slowest);
    if (share < crossing! && to >= crossing!) sound.tick();
    share = to;
    picture.showTo(Math.min(1, share));
  }

  function frame(now: number): void {
    if (!isPlaying || stage.offsetParent === null) {
      isRunning = false;
      return;
    }
    const lapse = Math.min(0.1, (now - since) / 1000);
    since = now;
    if (share > 1 + rest / slowest) {
      share = 0;
      void load(tick + 1, 0).then(() => requestAnimationFrame(frame));
      return;
    }
    go(share + lapse / slowest);
    requestAnimationFrame(frame);
  }

  function setPlaying(wanted: boolean): void {
    const isNew = wanted !== isPlaying;
    isPlaying = wanted;
    play.textContent = isPlaying ? "Pause" : "Play";
    if (isNew) start();
  }

  function start(): void {
    if (isRunning || !isPlaying) return;
    isRunning = true;
    since = performance.now();
    requestAnimationFrame(frame);
  }

  /** To the next of the moments at which something happens. */
  function step(): void {
    setPlaying(false);
    const next = picture?.events.find((event) => event > share + 1e-9);
    if (next === undefined) void load(tick + 1, picture?.events[0] ?? 0);
    else go(next);
  }

  return {
    element: element("div", { class: "play" }, stage, words, live, bar),
    update(settings: Settings): void {
      if (settings.seed === seed) {
        start();
        return;
      }
      seed = settings.seed;
      setPlaying(isPlaying);
      void load(1, isPlaying ? 0 : 1).then(start);
    },
  };
}
