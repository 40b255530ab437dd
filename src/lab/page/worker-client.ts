import type { Scenario } from "../../scenario/index.ts";
import type { Message, Question, TaskName, Tasks } from "../protocol.ts";

/** Answers kept, so that a step shown before is there at once. */
const mostKept = 24;

interface Waiting {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (error: Error) => void;
  readonly onProgress: ((share: number) => void) | undefined;
}

/** A newer question has made this one void. */
export class Voided extends Error {}

/** Puts questions to the worker in which the engine runs. */
export class WorkerClient {
  private readonly worker: Worker;
  private readonly waiting = new Map<number, Waiting>();
  private readonly kept = new Map<string, unknown>();
  private lastId = 0;

  /**
   * @param source - text of the worker's program
   * @param scenario - what it is about
   */
  constructor(source: string, scenario: Scenario) {
    const url = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    this.worker = new Worker(url);
    this.worker.postMessage(scenario);
    this.worker.onmessage = ({ data }: MessageEvent<Message>) => this.take(data);
    this.worker.onerror = (event) => this.fail(event.message);
  }

  /**
   * Asks.
   *
   * @param task - what is asked
   * @param ask - its particulars
   * @param lane - a newer question of the same lane makes this one void
   * @param onProgress - hears of the share done
   * @returns the answer; rejected with `Voided` when overtaken
   */
  ask<T extends TaskName>(
    task: T,
    ask: Tasks[T]["ask"],
    lane: string,
    onProgress?: (share: number) => void,
  ): Promise<Tasks[T]["answer"]> {
    const key = JSON.stringify([task, ask]);
    const known = this.kept.get(key);
    const id = ++this.lastId;
    if (known !== undefined) return Promise.resolve(known as Tasks[T]["answer"]);
    return new Promise((resolve, reject) => {
      const keep = (answer: unknown) => {
        if (task !== "download") this.keep(key, answer);
        resolve(answer as Tasks[T]["answer"]);
      };
      this.waiting.set(id, { resolve: keep, reject, onProgress });
      const question: Question<T> = { id, lane, task, ask };
      this.worker.postMessage(question);
    });
  }

  private keep(key: string, answer: unknown): void {
    this.kept.set(key, answer);
    if (this.kept.size > mostKept) this.kept.delete(this.kept.keys().next().value!);
  }

  private take(message: Message): void {
    const waiting = this.waiting.get(message.id);
    if (waiting === undefined) return;
    if (message.type === "progress") {
      waiting.onProgress?.(message.share);
      return;
    }
    this.waiting.delete(message.id);
    if (message.type === "answer") waiting.resolve(message.answer);
    else if (message.type === "void") waiting.reject(new Voided());
    else waiting.reject(new Error(message.message));
  }

  private fail(message: string): void {
    for (const { reject } of this.waiting.values()) reject(new Error(message));
    this.waiting.clear();
  }
}
