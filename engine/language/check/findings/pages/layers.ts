// What the reference says of the findings about books that depend on others: the way out, and the smallest
// book, with what it depends on, that causes each.
import type { FindingPage } from "./page.ts";

const HOUSE =
  "book house, edition 4\nask depth in mm, 0 to 10\ndial factor = 2, from 1 to 3\n" +
  "    from practice\nfigure wide in mm = depth * factor\n" +
  "chart grade by depth gives number\n    from practice\n    depth | grade\n" +
  "    under 5 mm | 1\n    5 mm and over | 2\n" +
  'step wash "Wash {wide} at grade {grade}"\nstop deep "Too deep" when depth > 9 mm\n';
const over = (text: string, ...more: string[]): FindingPage["smallest"] =>
  `book mine, edition 1, amends house, edition 4\n${text}${more.join("")}`;

export const LAYERS: Readonly<Record<string, FindingPage>> = {
  "use/missing": {
    mend: "Put the book into the same folder, or name it as it names itself.",
    smallest: "book mine, edition 1\nuse laminates, edition 2",
  },
  "use/edition": {
    mend: "See what has changed since; then name the edition that is at hand.",
    books: [HOUSE],
    smallest: "book mine, edition 1, amends house, edition 3",
  },
  "use/circle": {
    mend: "Take what both need into a third book.",
    smallest: "book mine, edition 1\nuse mine",
  },
  "use/deep": {
    mend: "Put some of the books together.",
    books: Array.from({ length: 13 }, (_, i) => `book b${i}, edition 1\nuse b${i + 1}`),
    smallest: "book mine, edition 1\nuse b0",
  },
  "use/clash": {
    mend: "Give your own another name, or leave it out and take what is brought.",
    books: [HOUSE],
    smallest:
      "book mine, edition 1\nuse house\ndial factor = 2, from 1 to 3\n    from practice\n" +
      'step go "Go {factor}"',
  },
  "use/faulty": {
    mend: "Mend the book underneath, or replace the statement with the error.",
    books: ["book house, edition 4\nask depth in mm, 0 to 10\nfigure wide in mm = dept * 2"],
    smallest: over('step wash "Wash"'),
  },
  "layer/none": {
    mend: "Write `amends` and a book's name behind the edition, or drop the word.",
    smallest: "book mine, edition 1\ndrop step wash",
  },
  "layer/what": {
    mend: "Write what it is, then its name: `instead figure bevel-width`.",
    smallest: "book mine, edition 1\ninstead promise 1 < 2",
  },
  "layer/nothing": {
    mend: "The book underneath has moved on, or names it otherwise: look there.",
    books: [HOUSE],
    smallest: over("drop step rinse"),
  },
  "layer/instead": {
    mend: "Write `instead` before it, or give it a name of its own.",
    books: [HOUSE],
    smallest: over("figure wide in mm = 3 * depth"),
  },
  "layer/sort": {
    mend: "Replace it by what it is, or drop it and write it again.",
    books: [HOUSE],
    smallest: over("instead dial wide = 3 mm, from 1 mm to 5 mm\n    from practice"),
  },
  "layer/span": {
    mend: "Stay within the span, or have the book below widen it.",
    books: [HOUSE],
    smallest: over("instead dial factor = 4\n    from practice"),
  },
  "layer/again": {
    mend: "Write `as-before` where what the layer between says is to count, or leave it as it is.",
    books: [HOUSE, "book yard, edition 1, amends house, edition 4\ninstead figure wide = as-before + 1 mm"],
    smallest: "book mine, edition 1, amends yard, edition 1\ninstead figure wide = 3 * depth",
  },
  "layer/drop-changed": {
    mend: "Ask whether what the layer between says is really to go.",
    books: [HOUSE, 'book yard, edition 1, amends house, edition 4\ninstead step wash "Wash warm"'],
    smallest: "book mine, edition 1, amends yard, edition 1\ndrop step wash",
  },
  "layer/drop-own": {
    mend: "Keep one of the two.",
    books: [HOUSE],
    smallest: over('instead step wash "Wash warm"\ndrop step wash'),
  },
  "layer/row-again": {
    mend: "Leave the row out if the layer between has it right.",
    books: [HOUSE, "book yard, edition 1, amends house, edition 4\nchart grade add\n    under 5 mm | 3"],
    smallest: "book mine, edition 1, amends yard, edition 1\nchart grade add\n    under 5 mm | 4",
  },
  "layer/no-rows": {
    mend: "Write the rows under it, with `|` between the cells.",
    books: [HOUSE],
    smallest: over("chart grade add"),
  },
  "layer/because": {
    mend: "Write `because` and the reason.",
    books: [HOUSE],
    smallest: over("drop stop deep"),
  },
  "layer/weaker": {
    mend: "Nothing, if it is meant: it stays in sight.",
    books: [HOUSE],
    smallest: over('drop stop deep\n    because "The yard has a deeper jig"'),
  },
  "layer/condition": {
    mend:
      "Write `and as-before` to keep the condition underneath, `or as-before` where " +
      "the step is to be done in " +
      "both. To get rid of the condition underneath, drop the step and " +
      "write it as the book's own. A " +
      "condition that can only hold where the one underneath does needs nothing.",
    books: [
      "book house, edition 4\nask roof in mm, 0 to 900\nask size in mm, 0 to 900\n" +
        'step seal "Seal" when size <= 300 mm',
    ],
    smallest: over('instead step seal "Seal, with tape" when roof < 300 mm'),
  },
  "layer/after": {
    mend: "Name a step that is there.",
    books: [HOUSE],
    smallest: over('step rinse "Rinse" after scrub'),
  },
  "layer/as-before": {
    mend: "Write `instead` at the beginning of the statement.",
    smallest: "ask depth in mm, 0 to 10\nfigure wide in mm = as-before + depth",
  },
};
