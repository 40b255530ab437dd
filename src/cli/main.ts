#!/usr/bin/env node
import module from "node:module";

// Before all else is loaded: from version 22.1 on, Node keeps compiled code from one command to the next.
const { enableCompileCache } = module as { readonly enableCompileCache?: () => unknown };
enableCompileCache?.();

const { runProgram } = await import("./run-program.ts");
process.exitCode = await runProgram(process.argv);
