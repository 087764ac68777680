// The laws of tidying: twice is once, and what is tidied means what it meant.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readBook, showJob, tidy, workJob } from "../../../engine/index.ts";
import { parseStatement } from "../../../engine/language/syntax/parse.ts";
import { splitBook } from "../../../engine/language/syntax/split.ts";
import { allCases } from "../../support/cases.ts";
import { chance } from "../../support/chance.ts";
import { mess } from "../../support/mess.ts";
import { randomAnswers, randomBook } from "../../support/random-book.ts";
import { shrunkBreak } from "../../support/smallest.ts";
import { withoutPlaces } from "../../support/without-places.ts";

const RULESETS = fileURLToPath(new URL("../../../rulesets/", import.meta.url));
const BOOKS = readdirSync(RULESETS)
  .filter((name) => name.endsWith(".bevel"))
  .map((name) => readFileSync(RULESETS + name, "utf8"));

/** Forms in which a careless hand at the blanks would change the meaning. */
const ODD: readonly string[] = [
  "figure x = - - 3",
  "figure x = 3 - - 1",
  "figure x = -(-depth)",
  "figure x = - -depth",
  "figure x = 2 ^ - 3",
  "figure x=-depth",
  "figure x = (- 3 mm)",
  "figure x = 3mm",
  "figure x = 15%",
  "figure x = 1 3/8inch",
  "figure x = 1  3/8 inch",
  "figure x = 1 h   30 min",
  "figure x = 20°C",
  "figure x = depth -1",
  "figure x = 3 / 4",
  "figure x = 3 /4",
  'kind face\n    rough "one" smooth "two"',
  'kind face rough "one"\n    smooth',
  'kind face\n    rough\n        "one"\n    very-smooth "two" -- why',
  'list l for n from 1 to 3\n    a in mm = n * 1 mm b in g = 2 g\n    long-name = "x = y"',
  "list l for n from 1 to 3\n    a in mm = n *\n        1 mm",
  'list l for n from 1 to 3\n    a = 1\n    because "a = b"',
  "chart c by depth gives number\n  depth|c\n  under 3 mm|\n  |80",
  'chart c by depth gives text\n    depth | c\n    any | "a | b" -- bar | here',
  "chart c by depth gives number -- why\n    -- above the rows\n    depth | c\n\n    any | 3",
  'step a "Two  blanks {depth}"   when   depth>3 mm\n\n    takes 5 min',
  "figure x = a and b or c and not d",
  "figure x = (a and b) or c",
  "figure x = sqrt (3)",
  "figure x = sqrt( 3 )",
  "figure x = largest( 1 ,2,3 )",
  'worked w "t"\n    with depth 3 mm±0.2 mm,skin smc\n    gives x 3 mm +/- 1 mm,no step a,ready',
  'figure x = 3 mm\rstep a "b"',
  "-- only a comment",
  "",
  "\n\n\n",
  "   ",
  "\ufefffigure x = 3",
  "    stray\nfigure x = 3",
  "figure x = 3 mm ;",
  'part "open',
  "figure x = 1:12",
  "figure x = 100:28   by   mass of y",
  "figure x = depth rounded   up   to 5 mm",
  "figure x = depth is   not   3 mm",
  "promise a\n    when b",
  "figure x =\n    1 if a,\n    2 if b,\n    otherwise 3",
];

function* untidyBooks(): Generator<string> {
  yield* ODD;
  for (let seed = 1; seed <= 300; seed++) {
    const by = chance(seed);
    yield mess(by, randomBook(by, 8).text);
  }
  for (const [i, one] of allCases().entries()) yield mess(chance(i + 1), one.text.split(/\n(?===)/)[0]!);
  for (const book of BOOKS) {
    yield book;
    yield mess(chance(7), book);
  }
}

test("tidy twice is tidy once", () => {
  expect(
    shrunkBreak(untidyBooks(), (text) => {
      const once = tidy(text);
      const twice = tidy(once);
      return once === twice ? undefined : `once:\n${once}\ntwice:\n${twice}`;
    }),
  ).toBeUndefined();
}, 120_000);

test("a tidied book has the same statements", () => {
  expect(
    shrunkBreak(untidyBooks(), (text) => {
      const [was, is] = [trees(text), trees(tidy(text))];
      if (was.length !== is.length) return `${was.length} statements became ${is.length}:\n${tidy(text)}`;
      const at = was.findIndex((one, i) => one !== is[i]);
      return at < 0 ? undefined : `statement ${at + 1} was\n${was[at]}\nand is\n${is[at]}\nin\n${tidy(text)}`;
    }),
  ).toBeUndefined();
}, 120_000);

test("a tidied book keeps its comments", () => {
  const comments = (text: string) =>
    text.split(/\r?\n/).flatMap((line) => /--.*$/.exec(line.replace(/"[^"]*"/g, ""))?.[0].trim() ?? []);
  expect(
    shrunkBreak(untidyBooks(), (text) => {
      const [was, is] = [comments(text).join("\n"), comments(tidy(text)).join("\n")];
      return was === is ? undefined : `was:\n${was}\nis:\n${is}`;
    }),
  ).toBeUndefined();
}, 120_000);

test("a tidied book gives the same values", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const by = chance(seed);
    const book = randomBook(by, 8);
    const answers = randomAnswers(by, book.asks);
    // What a promise says is the text as it is written, blanks and all.
    const show = (text: string) => ({ ...showJob(workJob(readBook(text), answers)), broken: [] });
    expect(show(tidy(mess(by, book.text)))).toEqual(show(book.text));
  }
}, 120_000);

test("the shipped books are tidy", () => {
  for (const book of BOOKS) expect(tidy(book)).toBe(book);
}, 120_000);

/** Each statement's meaning as one text; cells may differ in their blanks. */
function trees(text: string): string[] {
  return splitBook(text).map(({ text: one }) => {
    const { body, clauses, name, faults } = parseStatement(one);
    return JSON.stringify(
      withoutPlaces({ body, clauses, name, faults: faults.map((fault) => fault.code) }),
      (key, value) =>
        key === "text" && typeof value === "string"
          ? value
              .replace(/\s+/g, " ")
              .replace(/ ?([*^<>=/|+]) ?/g, "$1")
              .replace(/[()]/g, "")
          : value,
    );
  });
}
