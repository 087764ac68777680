// Makes a tidy text untidy without changing what it means: blanks, indents, comments, line ends.
import type { Chance } from "./chance.ts";

export function mess(by: Chance, text: string): string {
  const lines = text.split("\n").flatMap((line) => {
    if (line.trim() === "") return [line];
    const indent = /^\s*/.exec(line)![0];
    const body = outsideTexts(line.slice(indent.length), (part) =>
      part
        .replace(/ /g, () => " ".repeat(1 + (by.odds(0.2) ? by.whole(4) : 0)))
        .replace(/ ([*/^+<>=|]+) /g, (all) => (by.odds(0.2) ? all.replace(/ ([*^<>=|]+) /, "$1") : all)),
    );
    const shifted = indent === "" ? "" : by.odds(0.2) ? "\t" : " ".repeat(1 + by.whole(8));
    const behind = by.odds(0.1) ? "  -- a comment" : by.odds(0.1) ? "   " : "";
    const above = by.odds(0.05)
      ? [indent === "" || by.odds(0.5) ? "-- at the edge" : "    -- indented"]
      : by.odds(0.05)
        ? ["", ""]
        : [];
    return [...above, shifted + body + behind];
  });
  return lines.join(by.odds(0.1) ? "\r\n" : "\n");
}

function outsideTexts(line: string, change: (part: string) => string): string {
  return line
    .split(/("[^"\n]*")/)
    .map((part, i) => (i % 2 === 1 ? part : change(part)))
    .join("");
}
