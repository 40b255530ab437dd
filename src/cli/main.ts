#!/usr/bin/env node
import module from "node:module";
import { isMainThread, SHARE_ENV, Worker } from "node:worker_threads";
import { leaveAtSignals } from "./interrupt.ts";

// Before all else is loaded: from version 22.1 on, Node keeps compiled code from one command to the next.
const { enableCompileCache } = module as { readonly enableCompileCache?: () => unknown };
enableCompileCache?.();

/** Commands that may compute for long in one go: they do it in a worker, so that signals are heard. */
const longInOneGo = ["judge", "fit", "merge"];

if (isMainThread) leaveAtSignals();
if (isMainThread && longInOneGo.includes(process.argv[2] ?? "")) {
  const worker = new Worker(new URL(import.meta.url), {
    argv: process.argv.slice(2),
    env: SHARE_ENV,
  });
  worker.on("exit", (code) => {
    process.exitCode = code;
  });
} else {
  const { runProgram } = await import("./run-program.ts");
  process.exitCode = await runProgram(process.argv);
}
