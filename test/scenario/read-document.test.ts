import { describe, expect, it } from "vitest";
import { readDocument, ScenarioError } from "../../src/scenario/index.ts";

function refusal(text: string): string {
  try {
    readDocument(text, "x.yaml");
  } catch (error) {
    if (error instanceof ScenarioError) {
      expect(error.complaints).toHaveLength(1);
      return error.message;
    }
    throw error;
  }
  throw new Error("the text was accepted");
}

const bomb = ["a: &a [1, 1, 1, 1, 1, 1, 1, 1]"];
for (const [name, of] of ["ba", "cb", "dc", "ed"]) {
  bomb.push(`${name}: &${name} [${`*${of}, `.repeat(8)}1]`);
}

describe("readDocument", () => {
  it.each([
    ["an empty text", "", "x.yaml:1:1: is empty"],
    ["nothing but a comment", "# nothing\n", "x.yaml:1:1: holds nothing but comments"],
    ["a byte order mark alone", "\ufeff", "x.yaml:1:1: is empty"],
    ["a zero byte", "a: 1\nb: \u0000", "x.yaml:2:4: is not text in UTF-8"],
    ["bytes that were no UTF-8", "a: \ufffd", "x.yaml:1:4: is not text in UTF-8"],
    ["half of a surrogate pair", "a: \ud800", "x.yaml:1:4: is not text in UTF-8"],
    ["several documents", "a: 1\n---\nb: 2\n", "x.yaml:2:1: holds several documents"],
    ["a quote not closed", "a: 'x", "x.yaml:1:6: is not YAML: Missing closing 'quote"],
    ["a tab as indentation", "a:\n\tb: 1\n", "x.yaml:2:1: is not YAML: Tabs are not"],
    ["a section not closed", "a: { b: 1", "x.yaml:1:10: is not YAML: Flow map"],
    ["an unknown directive", "%FOO\n---\na: 1", "x.yaml:1:1: is not YAML: Unknown directive"],
    ["another YAML version", "%YAML 1.1\n---\na: yes", "x.yaml:1:1: must be YAML 1.2"],
    ["an unknown tag", "a: !foo 3", "x.yaml:1:4: is not YAML: Unresolved tag"],
    ["a tag of a section", "a: !!set { b }", "x.yaml:1:10: the tag tag:yaml.org,2002:set is not"],
    ["a tag of a list", "a: !!seq [1]", "x.yaml:1:10: the tag tag:yaml.org,2002:seq is not used"],
    ["a tag", "a: 1\nb: !!str 3", "x.yaml:2:10: the tag tag:yaml.org,2002:str is not used"],
    ["a key given twice", "a: 1\nb: 2\na: 3", 'x.yaml:3:1: the key "a" is given twice'],
    ["a key given twice in JSON", '{"a": 1, "a": 2}', 'x.yaml:1:10: the key "a" is given twice'],
    ["a list as key", "? [1]\n: 2", "x.yaml:1:3: a key must be plain text"],
    ["an alias of nothing", "a: *b", "x.yaml:1:4: the alias *b has no anchor before it"],
    ["an alias of itself", "a: &a [*a]", "x.yaml:1:8: the alias *a stands in what it names"],
    ["aliases that multiply", bomb.join("\n"), "x.yaml:1:1: has more aliases than"],
    ["a text nested too deep", "[".repeat(30_000), "x.yaml:1:1: is nested more than 40 deep"],
    ["a text of too many values", `[${"1,".repeat(60_000)}]`, "x.yaml:1:1: has more than 50000"],
    ["a text over 1 MB", "#".repeat(1_000_001), "x.yaml:1:1: is longer than 1 MB"],
    ["a text over 1 MB in bytes", `# ${"µ".repeat(500_000)}`, "x.yaml:1:1: is longer than 1 MB"],
  ])("refuses %s, and says where", (_case, text, said) => {
    expect(refusal(text).slice(0, said.length)).toBe(said);
  });

  it("reads YAML and JSON alike", () => {
    const value = { a: 1e-9, b: [true, null, "x"], c: { d: -2.5 } };
    expect(readDocument(JSON.stringify(value), "x").value).toEqual(value);
    expect(readDocument("a: 1e-9\nb: [true, null, x]\nc: { d: -2.5 }", "x").value).toEqual(value);
  });

  it("passes over a byte order mark and takes either line end", () => {
    const read = readDocument("\ufeffa: 1\r\nb: 2\r\n", "x");
    expect(read.value).toEqual({ a: 1, b: 2 });
    expect(read.place(["a"], "key")).toEqual({ line: 1, column: 1 });
    expect(read.place(["b"], "value")).toEqual({ line: 2, column: 4 });
  });

  it("takes minus zero for zero", () => {
    const { value } = readDocument("a: -0.0", "x");
    expect(Object.is((value as { a: number }).a, 0)).toBe(true);
  });

  it("keeps a key named like the prototype as a key like any other", () => {
    const { value } = readDocument("__proto__: { x: 1 }", "x");
    expect(Object.keys(value as object)).toEqual(["__proto__"]);
    expect((value as { x?: number }).x).toBeUndefined();
  });
});

describe("place", () => {
  const read = readDocument("a: &q { b: 1 }\nc:\n  - x\n  - { d: 2 }\ne: *q\nf:\n", "x");

  it.each([
    ["a value", ["a", "b"], "value", 1, 12],
    ["a key", ["a", "b"], "key", 1, 9],
    ["an item of a list", ["c", 1], "value", 4, 5],
    ["a key in it", ["c", 1, "d"], "key", 4, 7],
    ["an index written as text", ["c", "1", "d"], "value", 4, 10],
    ["what an alias stands for", ["e", "b"], "value", 1, 12],
    ["a key of nothing", ["f"], "key", 6, 1],
  ] as const)("finds %s", (_case, path, at, line, column) => {
    expect(read.has(path)).toBe(true);
    expect(read.place(path, at)).toEqual({ line, column });
  });

  it("is the heading of the section that a missing key belongs to", () => {
    expect(read.has(["a", "z"])).toBe(false);
    expect(read.place(["a", "z"], "value")).toEqual({ line: 1, column: 1 });
    expect(read.place(["c", 7], "value")).toEqual({ line: 2, column: 1 });
  });
});
