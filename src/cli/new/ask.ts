import { createInterface } from "node:readline";
import { styled, wrap } from "../style.ts";
import { type Answers, questions } from "./questions.ts";

/** What a session came to: answers, and whether it got to its end. */
export interface Asked {
  readonly answers: Answers;
  readonly isWhole: boolean;
}

/**
 * Asks the questions on a terminal that the command line leaves open.
 *
 * Enter takes what is usual, d is "I don't know", ? tells how to find out, b goes back.
 *
 * @param given - answers by options: they are not asked
 * @param fault - what is wrong with answers together, or null
 */
export async function ask(
  given: Answers,
  fault: (answers: Answers) => string | null,
): Promise<Asked> {
  const out = (text: string) => process.stderr.write(`${text}\n`);
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  const next = lines[Symbol.asyncIterator]();
  let isStopped = false;
  lines.on("SIGINT", () => lines.close());
  const stop = () => {
    isStopped = true;
    lines.close();
  };
  process.once("SIGINT", stop);
  let answers: Record<string, string> = { ...given };
  const before: { readonly index: number; readonly answers: Answers }[] = [];
  out(
    wrap(
      "Ten questions at most, for a scenario to begin with. What you do not know takes a typical value, is marked, and widens the plan.",
    ),
  );
  out("Enter = [default]   d = I don't know   ? = how to find out   b = back\n");
  try {
    for (let index = 0; index < questions.length; ) {
      const question = questions[index]!;
      if (given[question.name] !== undefined || !question.arises(answers)) {
        if (given[question.name] === undefined)
          out(styled("dim", `${String(index + 1).padStart(2)} skipped: no bursts`));
        index += 1;
        continue;
      }
      const usual = question.usual(answers);
      process.stderr.write(
        `${wrap(`${String(index + 1).padStart(2)} ${question.asks} [${usual}]`, 78, "   ")} `,
      );
      const { value, done } = await next.next();
      if (done || isStopped) return { answers, isWhole: false };
      const text = String(value).trim();
      if (text === "?") out(wrap(`   ${question.help}`, 80, "   "));
      else if (text === "b") {
        const last = before.pop();
        if (last === undefined) out("   This is the first.");
        else ({ index, answers } = { index: last.index, answers: { ...last.answers } });
      } else {
        const tried = { ...answers };
        if (text === "d") delete tried[question.name];
        else tried[question.name] = text === "" ? usual : text;
        const wrong = text === "d" ? null : (question.fault(tried[question.name]!) ?? fault(tried));
        if (wrong !== null) out(wrap(`   ${wrong}`, 80, "   "));
        else {
          before.push({ index, answers });
          answers = tried;
          index += 1;
        }
      }
    }
    return { answers, isWhole: true };
  } finally {
    process.removeListener("SIGINT", stop);
    lines.close();
  }
}
