import type { LessonData } from "../lesson-data.ts";
import { startApp } from "./app.ts";
import { reportFailure } from "./report-failure.ts";
import { unpack } from "./unpack.ts";
import { WorkerClient } from "./worker-client.ts";

async function start(): Promise<void> {
  const text = document.getElementById("lesson-data")!.textContent!;
  const data = JSON.parse(text) as LessonData;
  const source = await unpack("worker-code");
  startApp(data, new WorkerClient(source, data.scenario), document.querySelector("main")!);
}

start().catch(reportFailure);
