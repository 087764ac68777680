// Spoils texts the way files and hands spoil them: cut off, swapped, doubled, deleted, and strange characters
// put in.
import type { Chance } from "./chance.ts";

const STRANGE = [
  "\u0000",
  "\ufeff",
  "\ud800",
  "\udc00",
  "\u2028",
  "\u00a0",
  "\t",
  "\r",
  "\r\n",
  "\u202e",
  "é",
  "e\u0301",
  "漢",
  "🛠",
  "ß",
  "İ",
  "ﬁ",
  "½",
  "٣",
  "−",
  "’",
  "“",
  "\\",
  "`",
  "$",
  "#",
  "@",
  "&",
  ";",
  "?",
  "{",
  "}",
  "{{",
  '"',
  "''",
  "|",
  "||",
  "(",
  ")",
  "((((",
  "))))",
  "--",
  "=",
  "==",
  "<",
  "<=",
  "±",
  "+/-",
  ",",
  ".",
  ":",
  "1:",
  ":1",
  "1e308",
  "1e999",
  "-1e308",
  "0",
  "-0",
  "1/0",
  "0/0",
  "NaN",
  "Infinity",
  "999999999999999999999",
  "0.1",
  "1 3/8",
  " __proto__ ",
  " constructor ",
  " toString ",
  " hasOwnProperty ",
  " prototype ",
  " stopped ",
  " pi ",
  " known ",
  " whole ",
  " unknown ",
  " any ",
  " of ",
  " if ",
  " otherwise ",
  " rounded up to ",
  " is one of ",
  " run out at ",
  " is among ",
  " mm",
  " kg",
  " °C",
  " °C apart",
  " %",
  " % by mass",
  " % by volume",
  " 1:12",
  " 100:28 by mass",
  " EUR",
  " USD/h",
  " mm/kg/s/mm/kg",
  "\nfigure ",
  "\nchart ",
  "\n    from practice",
  "\nlist ",
  "\nworked ",
  "\nask ",
  "\n",
  "\n\n",
  "\n  ",
  " 10001",
  " 50000",
];

/** One to six changes. */
export function mutate(by: Chance, text: string): string {
  let out = text;
  for (let i = 0, times = 1 + by.whole(6); i < times; i++) out = once(by, out);
  return out;
}

function once(by: Chance, text: string): string {
  const at = by.whole(text.length + 1);
  const to = Math.min(text.length, at + 1 + by.whole(by.odds(0.2) ? 200 : 12));
  switch (by.whole(11)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(0, at) + text.slice(to);
    case 2:
      return text.slice(0, to) + text.slice(at, to).repeat(1 + by.whole(3)) + text.slice(to);
    case 3:
    case 4:
      return text.slice(0, at) + by.pick(STRANGE) + text.slice(at);
    case 5:
      return text.slice(0, at) + by.pick(STRANGE) + text.slice(to);
    case 6:
      return swapped(by, text, /\n/);
    case 7:
      return swapped(by, text, /(?<=\s)|(?=\s)/);
    case 8: {
      const lines = text.split("\n");
      lines.splice(by.whole(lines.length), 1);
      return lines.join("\n");
    }
    case 9: {
      const lines = text.split("\n");
      lines.splice(by.whole(lines.length), 0, by.pick(lines));
      return lines.join("\n");
    }
    default:
      return (
        text.slice(0, at) +
        String.fromCharCode(by.odds(0.5) ? 32 + by.whole(96) : by.whole(65536)) +
        text.slice(at + 1)
      );
  }
}

function swapped(by: Chance, text: string, cut: RegExp): string {
  const parts = text.split(cut);
  const [a, b] = [by.whole(parts.length), by.whole(parts.length)];
  [parts[a], parts[b]] = [parts[b]!, parts[a]!];
  return parts.join(cut.source === "\\n" ? "\n" : "");
}

/** A text of nothing but chance: words of the language, signs, and strange characters in any order. */
export function randomText(by: Chance, words: readonly string[]): string {
  return Array.from({ length: 1 + by.whole(60) }, () =>
    by.odds(0.15) ? "\n" : by.odds(0.5) ? ` ${by.pick(words)}` : by.pick(STRANGE),
  ).join("");
}
