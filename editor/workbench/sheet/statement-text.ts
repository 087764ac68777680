// Edits of one statement's own text that a cell of the sheet stands for: its rule and its basis.
import type { TextEdit } from "../../../core/span.ts";
import type { Keyword, Row } from "../../../core/view.ts";

/**
 * What one edits in place of a row's rule: the rule itself without spaces before it, or the whole statement
 * where it has no single rule.
 */
export function editedSpan(text: string, row: Row): { readonly start: number; readonly end: number } {
  const at = row.ruleAt ?? row.at;
  const spaces = text.slice(at.start, at.end).search(/\S/);
  return { start: at.start + Math.max(0, spaces), end: at.end };
}

/**
 * What was typed as it may stand in the text: later lines are indented, so they still belong to the
 * statement.
 */
export function asContinuation(typed: string): string {
  return typed
    .replace(/\s+$/, "")
    .split("\n")
    .map((line, place) =>
      place === 0 || line.trim() === "" || /^\s/.test(line) ? line.trimEnd() : `    ${line.trimEnd()}`,
    )
    .filter((line, place) => place === 0 || line !== "")
    .join("\n");
}

/** Sets, changes or (if empty) removes the line that begins with `from`. */
export function basisEdit(text: string, row: Row, basis: string): TextEdit {
  const own = text.slice(row.at.start, row.at.end);
  const line = /\n[ \t]+from[ \t]+[^\n]*/.exec(own);
  const wanted = basis.trim() === "" ? "" : `\n    from ${basis.trim()}`;
  if (line)
    return {
      at: { start: row.at.start + line.index, end: row.at.start + line.index + line[0].length },
      text: wanted,
    };
  // A chart's rows come last, so there the basis goes under the first line.
  const firstEnd = own.indexOf("\n");
  const end = row.keyword === "chart" && firstEnd >= 0 ? firstEnd : own.trimEnd().length;
  return { at: { start: row.at.start + end, end: row.at.start + end }, text: wanted };
}

export const basisWords = ["practice", 'standard ""', 'house ""', "label", 'test ""', "memory"] as const;

/** A first text for a new statement of each sort, with a name that is not taken. */
export function firstText(keyword: Keyword, taken: ReadonlySet<string>): string {
  const free = (wish: string): string => {
    if (!taken.has(wish)) return wish;
    for (let n = 2; ; n += 1) if (!taken.has(`${wish}-${n}`)) return `${wish}-${n}`;
  };
  switch (keyword) {
    case "book":
      return 'book my-book, edition 1\n    "Title"';
    case "part":
      return 'part "New part"';
    case "kind":
      return `kind ${free("new-kind")}\n    one  "What it means"\n    other  "What it means"`;
    case "ask":
      return `ask ${free("new-measure")} in mm, 0 to 100\n    "Question"`;
    case "dial":
      return `dial ${free("new-dial")} = 10 mm, from 5 mm to 20 mm\n    from practice`;
    case "figure":
      return `figure ${free("new-figure")} = `;
    case "formula":
      return `formula ${free("new-formula")}(a in mm, b in mm) = a * b`;
    case "chart":
      return (
        `chart ${free("new-chart")} by thickness gives mm\n    from practice\n` +
        "    thickness | value\n    any | 1"
      );
    case "list":
      return `list ${free("new-list")} for n from 1 to 3\n    size in mm = n * 10 mm`;
    case "step":
      return `step ${free("new-step")} "What to do"`;
    case "caution":
      return 'caution "What to mind"';
    case "stop":
      return 'stop "Why the work stops"';
    case "promise":
      return "promise ";
    case "picture":
      return "picture section with thickness thickness";
    case "worked":
      return `worked ${free("new-example")} "Title"\n    with \n    gives ready`;
    case "use":
      return "use ";
    case "drop":
      return "drop ";
    case "unreadable":
      return "";
  }
}
