import { constants } from "node:os";
import { describe, expect, it } from "vitest";
import { FileError, systemReason } from "../../src/cli/index.ts";

/** What POSIX.1-2024 (open, write, mkdir, rename: Errors) lets the system refuse of what the program does. */
const codes = [
  ...["ENOENT", "EACCES", "EPERM", "EISDIR", "ENOTDIR", "EEXIST", "ENOSPC", "EDQUOT"],
  ...["EROFS", "EMFILE", "ENAMETOOLONG", "ELOOP", "EFBIG", "EIO", "EPIPE"],
] as const;

describe("systemReason", () => {
  it.each(codes)("says what %s means", (code) => {
    expect(constants.errno).toHaveProperty(code);
    const reason = systemReason(Object.assign(new Error("raw"), { code }));
    expect(reason).toMatch(/^[a-z][^A-Z]+/);
    expect(reason).not.toContain("raw");
    // What can be done is said, but where nothing can.
    if (!["EPIPE", "EFBIG", "EIO"].includes(code)) expect(reason).toMatch(/; [a-z]/);
  });

  it("falls back on the code, on the message, on the thing itself", () => {
    expect(systemReason(Object.assign(new Error("raw"), { code: "EXDEV" }))).toBe("EXDEV");
    expect(systemReason(new Error("in use"))).toBe("in use");
    expect(systemReason(null)).toBe("null");
  });
});

describe("FileError", () => {
  it("says where, what was tried, and why not", () => {
    const cause = Object.assign(new Error(), { code: "ENOENT" });
    expect(new FileError("read", "a/b", cause).message).toBe(
      "a/b: could not read: there is no such file or folder; look at the path",
    );
  });
});
