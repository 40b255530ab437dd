#!/usr/bin/env node
import { createProgram } from "./program.ts";
import { runProgram } from "./run-program.ts";

process.exitCode = await runProgram(createProgram(), process.argv);
