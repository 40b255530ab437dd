import { escaped, type SvgNode, toMarkup } from "../chart/index.ts";

/** A part of a report: a paragraph, sentences, a label with its text, or a table whose first row is the head. */
export type ReportPart =
  | { readonly text: string }
  | { readonly lines: string[] }
  | { readonly label: string; readonly text: string }
  | { readonly rows: readonly (readonly string[])[]; readonly left: readonly number[] };

/** What a report says. */
export interface Report {
  /** Of the data or the scenario, in the user's own words; any text. */
  readonly title: string;
  /** The answer: a sentence to quote, then what it depends on. */
  readonly answer: readonly string[];
  readonly pictures: readonly SvgNode[];
  /** How it came about: a label and what is to be said to it. */
  readonly facts: readonly (readonly [label: string, texts: readonly string[]])[];
  /** All numbers, paragraph by paragraph. */
  readonly details: readonly (readonly ReportPart[])[];
  /** Files that it rests on, with their SHA-256 in hexadecimal digits. */
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  /** The command that makes it again, and the version of the program. */
  readonly command: string;
  readonly version: string;
  readonly created: string;
  /** Who measured, with what; a ruled blank where it is not said. */
  readonly by?: string | undefined;
  readonly instrument?: string | undefined;
}

const style = (mark: string) => `
:root{color-scheme:light dark;--paper:#fff;--ink:#1d2327;--muted:#566067;--rule:#c9ccce}
@media screen and (prefers-color-scheme:dark){:root{--paper:#12171a;--ink:#eef0ec;--muted:#a9b2b5;--rule:#4a5458}}
@page{margin:16mm 15mm 20mm;@bottom-left{content:"${mark}";font:7.5pt monospace}@bottom-right{content:counter(page) " / " counter(pages);font:8pt sans-serif}}
body{margin:0 auto;max-width:48rem;padding:1.5rem 1rem;background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
h1{font-size:1rem;font-weight:600;color:var(--muted);margin:0 0 .5rem}
h2{font-size:1.05rem;margin:2rem 0 .5rem}
.answer{font-size:1.35rem;line-height:1.35;font-weight:600;margin:.25rem 0 .75rem}
p{margin:.4rem 0}
figure{margin:1rem 0;break-inside:avoid}
figure svg{display:block;width:100%;height:auto}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.3rem 1.2rem;margin:.5rem 0}
dt{font-weight:600}dd{margin:0}dd p{margin:0 0 .2rem}
.scroll{overflow-x:auto;margin:.6rem 0}
table{border-collapse:collapse;font-size:.88rem;font-variant-numeric:tabular-nums}
th,td{padding:.15rem .7rem .15rem 0;border-bottom:1px solid var(--rule);text-align:right;white-space:nowrap;overflow-wrap:normal;font-weight:400}
thead th{font-weight:600;border-bottom:2px solid var(--ink)}
.l{text-align:left}
code{font-size:.85rem}
.sign{display:flex;gap:1.5rem;flex-wrap:wrap;margin-top:2rem;break-inside:avoid}
.sign p{flex:1 1 12rem;border-bottom:1px solid var(--ink);padding-bottom:.2rem}
@media (max-width:36rem){dl{grid-template-columns:1fr}dd{margin-bottom:.5rem}}
@media print{:root{color-scheme:light}body{max-width:none;padding:0;font-size:10.5pt}.answer{font-size:14pt}.scroll{overflow:visible}table{font-size:8.5pt}th,td{padding-right:.5rem}tr{break-inside:avoid}h2{break-after:avoid}figure svg{width:auto;max-width:100%;height:80mm}}
`;

/**
 * A report as one static page to mail or print: no script, no network, every text escaped.
 *
 * @param report - what it says; texts in it may hold anything
 * @returns HTML, the digest of what it rests on at the foot of every sheet
 */
export function reportPage(report: Report): string {
  const { title, answer, pictures, facts, details, inputs, command, version, created } = report;
  const mark = inputs.map(({ sha256 }) => `sha256 ${sha256.replace(/[^0-9a-f]/g, "")}`).join(" ");
  const paragraphs = (texts: readonly string[]) =>
    texts.map((text) => `<p>${escaped(text)}</p>`).join("");
  const fact = (label: string, content: string) => `<dt>${escaped(label)}</dt><dd>${content}</dd>`;
  const blank = (label: string, text = "") => `<p>${label} ${escaped(text)}</p>`;
  const digests = inputs.map(
    ({ file, sha256 }) => `<p>${escaped(file)}: <code>${escaped(sha256)}</code></p>`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>${style(mark.length > 150 ? `${mark.slice(0, 149)}…` : mark)}</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
<p class="answer">${escaped(answer[0] ?? "")}</p>
${paragraphs(answer.slice(1))}
${pictures.map((node) => `<figure>\n${toMarkup(node)}</figure>`).join("\n")}
<h2>How it came about</h2>
<dl>
${facts.map(([label, texts]) => fact(label, paragraphs(texts))).join("\n")}
</dl>
<h2>All numbers</h2>
${details.map(paragraphOf).join("\n")}
<h2>To check and repeat</h2>
<dl>
${fact("Digest (SHA-256)", digests.join(""))}
${fact("Command", `<code>${escaped(command)}</code>`)}
${fact("Made", escaped(`${created} by tickwright ${version}`))}
</dl>
<div class="sign">${blank("Measured by", report.by)}${blank("Instrument", report.instrument)}${blank("Date, signature")}</div>
</main>
</body>
</html>
`;
}

function paragraphOf(parts: readonly ReportPart[]): string {
  let html = "";
  parts.forEach((part, i) => {
    if ("rows" in part) html += tableOf(part.rows, part.left);
    else if ("label" in part) {
      const isLabel = (other: ReportPart | undefined) => other !== undefined && "label" in other;
      if (!isLabel(parts[i - 1])) html += "<dl>";
      html += `<dt>${escaped(part.label)}</dt><dd>${escaped(part.text)}</dd>`;
      if (!isLabel(parts[i + 1])) html += "</dl>";
    } else html += `<p>${escaped("lines" in part ? part.lines.join(" ") : part.text)}</p>`;
  });
  return html;
}

function tableOf([head = [], ...rows]: readonly (readonly string[])[], left: readonly number[]) {
  const side = (column: number) => (left.includes(column) ? ' class="l"' : "");
  const cells = (row: readonly string[]) =>
    row
      .map((cell, i) =>
        i === 0
          ? `<th scope="row"${side(i)}>${escaped(cell.trim())}</th>`
          : `<td${side(i)}>${escaped(cell)}</td>`,
      )
      .join("");
  // A head without words, as over bars, is no head.
  const heads = head.map((cell, i) =>
    cell.trim() === "" ? "<td></td>" : `<th scope="col"${side(i)}>${escaped(cell)}</th>`,
  );
  return `<div class="scroll" tabindex="0" role="group" aria-label="Table: ${escaped(head[0] ?? "")}"><table><thead><tr>${heads.join("")}</tr></thead><tbody>${rows.map((row) => `<tr>${cells(row)}</tr>`).join("")}</tbody></table></div>`;
}
