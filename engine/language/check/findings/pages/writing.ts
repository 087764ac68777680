// What the reference says of the findings about how a statement is written: the way out, and the smallest
// book that causes each.
import type { FindingPage } from "./page.ts";

export const WRITING: Readonly<Record<string, FindingPage>> = {
  "syntax/statement": {
    mend:
      "A line at the left edge begins with one of the statement words; indent it if it " +
      "belongs to the statement above.",
    smallest: "figur width = 3 mm",
  },
  "syntax/stray": { mend: "Begin the statement at the left edge.", smallest: "    figure width = 3 mm" },
  "syntax/unexpected": {
    mend: "Read the line aloud: something before this word is missing, or the word is one too many.",
    smallest: "figure width = 3 mm )",
  },
  "syntax/unfinished": {
    mend: "Finish the rule; lines that belong to it must be indented.",
    smallest: "figure width = 3 mm +",
  },
  "syntax/quote": { mend: "Close the text with a double quote.", smallest: 'part "Bevel' },
  "syntax/character": {
    mend: "Take it out, or put it inside a text.",
    smallest: "figure width = 3 mm ; 4 mm",
  },
  "syntax/brace": { mend: "Close the insert, or write {{ for a brace.", smallest: 'part "Bevel {width"' },
  "syntax/insert": {
    mend: "Put a name or a rule between the braces, perhaps with `in` and a unit.",
    smallest: 'part "Bevel {3 +}"',
  },
  "syntax/tight-slash": { mend: "Put spaces around the slash.", smallest: "figure half = 3 mm + a/b" },
  "syntax/reserved": {
    mend: "Choose another name; a longer one may contain the word: `over-spray`.",
    smallest: "figure over = 3 mm",
  },
  "syntax/clause": {
    mend: "Take the clause out, or put it on the statement that it belongs to.",
    smallest: 'part "Bevel"\n    takes 5 min',
  },
  "syntax/clause-twice": {
    mend: "Keep one of the two.",
    smallest: 'figure width = 3 mm\n    because "one"\n    because "two"',
  },
  "syntax/no-text": { mend: "Write what it says, in quotes.", smallest: "step wash" },
  "syntax/no-name": {
    mend: "Name it, so that cautions and worked examples can speak of it.",
    smallest: 'step "Wash the panel"',
  },
  "band/upside-down": {
    mend: "Write the smaller end first.",
    smallest: "ask depth in mm, 0 to 10\nfigure deep = yes if depth is 6 mm to 3 mm, otherwise no",
  },
  "book/first": { mend: "Move it to the top.", smallest: 'part "Bevel"\nbook shop, edition 1' },
  "book/twice": { mend: "Keep one.", smallest: "book shop, edition 1\nbook yard, edition 1" },
  "basis/unknown": {
    mend: "A basis is practice, standard, house, label, test or memory.",
    smallest: "dial width = 3 mm, from 1 mm to 9 mm\n    from hearsay",
  },
  "basis/missing": {
    mend:
      'Add `from practice`, `from standard "..."`, `from house "who, when"`, `from label`, ' +
      '`from test "which log"` or `from memory`.',
    smallest: "dial width = 3 mm, from 1 mm to 9 mm",
  },
};
