// Runs many command lines of the built program one after the other in one process, which is thirty times as fast
// as a process each, and lets one measurement of coverage tell which lines of the program they came by.
import fs, { readFileSync, writeFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [, , dist, callsFile, resultsFile] = process.argv;
const module = (name) => import(pathToFileURL(join(dist, "cli", name)).href);
const { runProgram } = await module("run-program.js");
const { writeSync } = fs;

/**
 * Writes as a command finds them: what goes to standard output is kept, and the disk may be the fullest there is, where
 * none but the shortest texts can be written.
 */
function setWrites(said, isFull) {
  fs.writeSync = (fd, data, from = 0, ...rest) => {
    if (fd === 1) {
      said.stdout += data.toString("utf8", from);
      return data.length - from;
    }
    if (isFull && data.length > 20) throw Object.assign(new Error("full"), { code: "ENOSPC" });
    return writeSync(fd, data, from, ...rest);
  };
  syncBuiltinESMExports();
}

const results = [];
for (const { cwd, args, isDiskFull } of JSON.parse(readFileSync(callsFile, "utf8"))) {
  process.chdir(cwd);
  process.argv = ["node", "tickwright", ...args];
  process.exitCode = undefined;
  const said = { stdout: "", stderr: "" };
  const writes = [process.stdout.write, process.stderr.write];
  for (const name of ["stdout", "stderr"]) {
    process[name].write = (text) => {
      said[name] += text;
      return true;
    };
  }
  setWrites(said, isDiskFull === true);
  const status = await runProgram(process.argv);
  fs.writeSync = writeSync;
  syncBuiltinESMExports();
  [process.stdout.write, process.stderr.write] = writes;
  for (const stream of [process.stdout, process.stderr]) stream.removeAllListeners("error");
  results.push({ status, ...said });
}
process.exitCode = 0;
writeFileSync(resultsFile, JSON.stringify(results));
