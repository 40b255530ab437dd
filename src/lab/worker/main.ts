import type { Scenario } from "../../scenario/index.ts";
import type { Message, Question, TaskName } from "../protocol.ts";
import { Overtaken, paceOf } from "./pace.ts";
import { Bench, type Task } from "./task.ts";
import { tasks } from "./tasks/index.ts";

/** What of a worker's global scope is used here. */
interface WorkerScope {
  onmessage: ((event: MessageEvent) => void) | null;
  postMessage(message: Message): void;
}

const scope = globalThis as unknown as WorkerScope;
const newest = new Map<string, number>();
let bench: Bench | null = null;

scope.onmessage = ({ data }: MessageEvent<Scenario | Question>) => {
  if (bench === null) bench = new Bench(data as Scenario);
  else void answer(bench, data as Question);
};

async function answer(on: Bench, { id, lane, task, ask }: Question): Promise<void> {
  newest.set(lane, id);
  const isOvertaken = () => newest.get(lane) !== id;
  const pace = paceOf(isOvertaken, (share) => scope.postMessage({ type: "progress", id, share }));
  try {
    // Questions asked in one breath are all heard before the first is looked into.
    await new Promise<void>((resume) => setTimeout(resume, 0));
    if (isOvertaken()) throw new Overtaken();
    const found = await (tasks[task] as Task<TaskName>)(on, ask as never, pace);
    scope.postMessage({ type: "answer", id, answer: found });
  } catch (error) {
    if (error instanceof Overtaken) scope.postMessage({ type: "void", id });
    else scope.postMessage({ type: "failure", id, message: messageOf(error) });
  }
}

const messageOf = (error: unknown) => (error instanceof Error ? error.message : String(error));
