import { isInterrupted } from "./interrupt.ts";
import type { TextSink } from "./text-sink.ts";

/** Longest sleep before a signal is looked at; ms. */
const nap = 100;

/** Lets text out when it is due by the wall clock, each piece at once and to its end. */
export class PacedSink implements TextSink {
  /** When what is written from now on is due; simulated s. */
  due = 0;
  private readonly sink: TextSink & { flush(): void };
  private readonly pace: number;
  private readonly queue: { readonly due: number; readonly text: string }[] = [];
  private readonly start = performance.now();

  /**
   * @param sink - where the text goes
   * @param pace - simulated seconds in one of the wall clock; > 0
   */
  constructor(sink: TextSink & { flush(): void }, pace: number) {
    this.sink = sink;
    this.pace = pace;
  }

  write(text: string): void {
    this.queue.push({ due: this.due, text });
  }

  /** Waits for what is written and lets it out; after a signal the rest is never let out. */
  async drain(): Promise<void> {
    for (const { due, text } of this.queue.splice(0)) {
      const at = this.start + (1000 * due) / this.pace;
      for (let left = at - performance.now(); left > 0; left = at - performance.now()) {
        if (isInterrupted()) return;
        await new Promise((resume) => setTimeout(resume, Math.min(left, nap)));
      }
      if (isInterrupted()) return;
      this.sink.write(text);
      this.sink.flush();
    }
  }

  close() {
    return this.sink.close();
  }
}
