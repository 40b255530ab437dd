import fc from "fast-check";

/** Text as users write it and as attackers would: markup, quotes, emoji, controls, lone surrogates, great length. */
export const anyText = fc.oneof(
  { weight: 4, arbitrary: fc.string({ unit: "binary" }) },
  { weight: 2, arbitrary: fc.string({ unit: "grapheme" }) },
  {
    weight: 4,
    arbitrary: fc
      .array(
        fc.constantFrom(
          "<script>alert(1)</script>",
          "</text>",
          "]]>",
          "<!--",
          "&amp;",
          "&#0;",
          '"',
          "'",
          "\u0000",
          "\u001b[31m",
          "\ud800",
          "\udfff",
          "\ufffe",
          "\r\n",
          "\t",
          "👩‍👩‍👧",
          "🕰️",
          "時計",
          "\u202e",
          "word",
        ),
      )
      .map((parts) => parts.join("")),
  },
  { weight: 1, arbitrary: fc.string().map((text) => text.repeat(500)) },
);
