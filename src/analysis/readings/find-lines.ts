/** Lines of a text that hold something, as bounds in it. */
export interface Lines {
  /** First character of each. */
  readonly start: Int32Array;
  /** Character after the last of each. */
  readonly end: Int32Array;
  /** Number of each, from 1. */
  readonly line: Int32Array;
}

/**
 * Finds the lines that are neither blank nor comments (#, %, //), whatever ends them (CR, LF or both).
 *
 * @param text - the text; a byte-order mark is passed over
 * @returns their bounds, without cutting any of them out
 *
 * Exact case: "a\r\n\n# b\nc" has the lines 1 and 4.
 */
export function findLines(text: string): Lines {
  let room = 1024;
  let start = new Int32Array(room);
  let end = new Int32Array(room);
  let line = new Int32Array(room);
  let kept = 0;
  let from = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let feed = -1;
  let carriage = -1;
  for (let number = 1; from <= text.length; number++) {
    if (feed < from) feed = next(text, "\n", from);
    if (carriage < from) carriage = next(text, "\r", from);
    const to = Math.min(feed, carriage);
    if (holdsSomething(text, from, to)) {
      if (kept === room) {
        room *= 2;
        start = grown(start, room);
        end = grown(end, room);
        line = grown(line, room);
      }
      start[kept] = from;
      end[kept] = to;
      line[kept++] = number;
    }
    from = to === carriage && feed === to + 1 ? to + 2 : to + 1;
  }
  return {
    start: start.subarray(0, kept),
    end: end.subarray(0, kept),
    line: line.subarray(0, kept),
  };
}

/** Where a character stands next; the length of the text where it does not. */
function next(text: string, character: string, from: number): number {
  const at = text.indexOf(character, from);
  return at < 0 ? text.length : at;
}

/** Whether a line is neither blank nor a comment. */
function holdsSomething(text: string, from: number, to: number): boolean {
  let i = from;
  while (i < to && isBlank(text.charCodeAt(i))) i++;
  if (i === to) return false;
  const code = text.charCodeAt(i);
  return code !== 35 && code !== 37 && !(code === 47 && text.charCodeAt(i + 1) === 47);
}

/**
 * Whether a character is white space, as `trim` has it.
 *
 * @param code - of the character, UTF-16
 */
export function isBlank(code: number): boolean {
  if (code <= 32) return code === 32 || (code >= 9 && code <= 13);
  return code >= 160 && /\s/.test(String.fromCharCode(code));
}

function grown(values: Int32Array, room: number): Int32Array<ArrayBuffer> {
  const out = new Int32Array(room);
  out.set(values);
  return out;
}
