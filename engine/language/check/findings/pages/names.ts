// What the reference says of the findings about names: the way out, and the smallest book that causes each.
import type { FindingPage } from "./page.ts";

export const NAMES: Readonly<Record<string, FindingPage>> = {
  "name/unknown": {
    mend: "Correct the name, or write the statement that sets it.",
    smallest: "figure width = 2 * thicknes",
  },
  "name/tight": {
    mend: "Put spaces around the minus.",
    smallest:
      "dial long = 9 mm, from 1 mm to 9 mm\n    from practice\n" +
      "dial short = 3 mm, from 1 mm to 9 mm\n    from practice\nfigure left = long-short",
  },
  "text/insert": {
    mend: "Insert a name of the book, or write {{ and }} for plain braces.",
    smallest: 'step grind "Grind out {width} all round"',
  },
  "name/line": {
    mend: "Write a `figure … of yes-no` for the condition, and use it in both places.",
    smallest: 'ask depth in mm, 0 to 10\nstep fill "Fill" when depth > 3 mm\nstep sand "Sand" when fill',
  },
  "name/twice": {
    mend: "Give one of them another name, or take it out.",
    smallest: "figure width = 3 mm\nfigure width = 4 mm",
  },
  "name/clash": {
    mend: "Give the value another name, so that no reader has to guess which is meant.",
    smallest: "kind duty\n    hull\n    deck\nfigure hull = 3 mm",
  },
  "name/built-in": { mend: "Choose another name.", smallest: "figure sqrt = 3 mm" },
  "name/loop": {
    mend: "Break the loop: one of them must rest on something else.",
    smallest: "figure a = b + 1\nfigure b = a + 1",
  },
  "name/unused": {
    mend: "Use it in a rule, a step, a promise or a worked example, or take it out.",
    smallest: "book shop, edition 1\nfigure width = 3 mm",
  },
  "name/formula": {
    mend: "Write the values that it works with: `area(3 mm, 4 mm)`.",
    smallest: "formula twice(x) = 2 * x\nfigure four = twice",
  },
  "name/column": {
    mend: "Name the column after a dot.",
    smallest:
      "ask depth in mm, 0 to 10\nchart care by depth gives first in mm, second in mm\n" +
      "    depth | first | second\n    any   | 1     | 2\n    from practice\n" +
      "figure third = care.third",
  },
  "name/no-column": {
    mend: "Leave the dot and what follows it out.",
    smallest: "figure width = 3 mm\nfigure half = width.half",
  },
  "name/step": { mend: "Correct the name.", smallest: 'caution dust "Wear a mask" with step grind' },
  "call/not-formula": {
    mend: "Leave the brackets out.",
    smallest: "figure width = 3 mm\nfigure wide = width(2)",
  },
  "call/kept": {
    mend: "Let its rows be read one at a time, or use `first of` and `is among`.",
    smallest:
      "kind cloth\n    mat\n    weave\nask ply of cloth\nchart left by ply gives cloth\n" +
      "    keep every row that fits\n    ply | left\n    mat | mat\n    weave | weave\n" +
      "    from practice\nfigure one = left(mat)",
  },
  "call/count": {
    mend: "Give each value that it wants, parted by commas.",
    smallest: "figure root = sqrt(1, 2)",
  },
  "kind/unknown": { mend: "Declare it with `kind`, or correct the name.", smallest: "ask skin of substrat" },
  "kind/word": {
    mend: "Use one of the kind's words, or add this one to it.",
    smallest: "kind substrate\n    smc\n    hand-laid\nask skin of substrate\nfigure moulded = skin is smcc",
  },
  "kind/which": {
    mend: "Declare what the value is, with `of` and the kind.",
    smallest: "kind face\n    rough\nkind back\n    rough\nfigure which = rough",
  },
  "kind/mismatch": {
    mend: "Compare and choose within one kind.",
    smallest:
      "kind face\n    rough\nkind cloth\n    mat\nask back of face\nask ply of cloth\n" +
      "figure same = back is ply",
  },
  "kind/twice": { mend: "Take one of the two out.", smallest: "kind face\n    rough\n    rough" },
  "kind/two-words": {
    mend: "Write it with a hyphen, or put the first word on a line of its own.",
    smallest: 'kind shade\n    dark green "G"\n    red "R"',
  },
  "kind/empty": {
    mend: "Write its words below it, indented, each with what it means.",
    smallest: "kind face",
  },
};
