/** Longest line; a device that ends none gets its bytes cut into such pieces. */
const longest = 1 << 16;
const [feed, carriage] = [10, 13];

/** Cuts bytes into lines as they come, whatever ends them: CR, LF or both. The bytes of a line stay as they are. */
export class LineCutter {
  #rest = Buffer.alloc(0);
  #isAfterCarriage = false;

  /** The lines that these bytes end, without their ends. */
  cut(bytes: Uint8Array): Buffer[] {
    const isPair = this.#isAfterCarriage && bytes[0] === feed;
    const data = Buffer.concat([this.#rest, isPair ? bytes.subarray(1) : bytes]);
    this.#isAfterCarriage = data.at(-1) === carriage;
    const lines: Buffer[] = [];
    let from = 0;
    for (let at = 0; at < data.length; at++) {
      const byte = data[at];
      if (byte !== feed && byte !== carriage && at - from < longest) continue;
      const isEnd = byte === feed || byte === carriage;
      lines.push(data.subarray(from, at));
      if (byte === carriage && data[at + 1] === feed) at++;
      from = isEnd ? at + 1 : at;
    }
    this.#rest = data.subarray(from);
    return lines;
  }

  /** What stands after the last line end, and is forgotten. */
  rest(): Buffer {
    const rest = this.#rest;
    this.#rest = Buffer.alloc(0);
    return rest;
  }
}
