// What the sheet writes into the own text of a layer when a row underneath is amended, dropped or brought
// back, and where; the new layer's head; and the counts of what each own line moves. The books are invented.
import { expect, test } from "vitest";
import { applyEdits } from "../../../core/span.ts";
import { insertStatement, readBook, removeStatement, showJob, workJob } from "../../../engine/index.ts";
import type { Book } from "../../../engine/index.ts";
import { lineValuesFor } from "../../../editor/workbench/panes/line-values.ts";
import type { ComparisonState } from "../../../editor/client/engine/compare-client.ts";
import {
  amendFirst,
  amendHead,
  amendedBy,
  baseOf,
  dialSpan,
  drawnRows,
  dropText,
  isLayer,
  lineAt,
  impactTarget,
  ownPlace,
  stackWords,
  statementOf,
} from "../../../editor/workbench/sheet/layer-rows.ts";
import { impactByRow, impactWords } from "../../../editor/workbench/sheet/layer-impact.ts";
import { nameTrouble, newLayer } from "../../../editor/workbench/store/new-layer.ts";

const BASE = `book house, edition 3
    "An invented house"

part "Bevel"

ask depth in mm, 0 to 20
    "How deep?"
dial slope = 1:10, from 1:8 to 1:15
    "Slope of the bevel"
    from practice
figure width in mm = depth run out at slope
chart pause by depth gives min
    depth | pause
    any   | 10
    from practice

part "Work"

step grind "Grind {width} all round"
    waits pause
caution dust "Wear a mask"
stop "Too deep" when depth > 15 mm
promise width >= 0 mm
`;
const made = newLayer(BASE, "yard", 'The "north" yard')!;
const read = (text: string): Book => readBook(text, undefined, [BASE]);
const row = (book: Book, id: string) => book.rows.find((one) => one.id === id)!;
const errors = (book: Book) => book.findings.filter((one) => one.weight === "error").map((one) => one.says);
/** As the bench writes it. */
function write(book: Book, id: string, statement: string): Book {
  const place = ownPlace(book.rows, row(book, id).part);
  return read(
    applyEdits(
      book.text,
      insertStatement(
        book,
        place.after,
        place.heading === undefined ? statement : `part "${place.heading}"\n\n${statement}`,
      ),
    ),
  );
}

test("a new layer is its head alone, and works as the book underneath does", () => {
  expect(made).toContain("book yard, edition 1, amends house, edition 3\n    \"The ''north'' yard\"");
  const book = read(made);
  expect(errors(book)).toEqual([]);
  expect([isLayer(book), baseOf(book)?.name, stackWords(book)]).toEqual([
    true,
    "house",
    "yard, edition 1, on house, edition 3",
  ]);
  expect(isLayer(readBook(BASE))).toBe(false);
  expect(stackWords(readBook(BASE))).toBeUndefined();
  expect(
    [
      nameTrouble(BASE, "house"),
      nameTrouble(BASE, "north yard"),
      nameTrouble(BASE, ""),
      nameTrouble(BASE, "north-yard"),
    ].map((one) => one !== undefined),
  ).toEqual([true, true, true, false]);
  expect(newLayer("-- no head\n", "yard", "")).toBeUndefined();
});

test("a dial and a figure are amended by an instead under one heading of the same title", () => {
  const book = read(made);
  const dial = row(book, "dial slope");
  expect([amendedBy(dial), amendFirst(dial), dialSpan(dial)]).toEqual(["rule", "1:10", "from 1:8 to 1:15"]);
  const turned = write(book, dial.id, `${amendHead(dial)}1:12`);
  expect(turned.text).toMatch(/part "Bevel"\n\ninstead dial slope = 1:12\n$/);
  const figure = row(turned, "figure width");
  const both = write(turned, figure.id, `${amendHead(figure)}as-before + 5 mm`);
  expect(both.text.match(/part "Bevel"/g)).toHaveLength(1);
  expect(errors(both)).toEqual([]);
  expect(row(both, "figure width")).toMatchObject({
    own: true,
    layer: "yard",
    was: { layer: "house", rule: "depth run out at slope" },
  });
  // Over a layer between, its value is what one begins from.
  const over = readBook('book part-family, edition 1, amends yard, edition 1\n    "Lids"\n', undefined, [
    both.text,
    BASE,
  ]);
  expect(amendFirst(row(over, "figure width"))).toBe("as-before");
  expect(stackWords(over)).toBe("part-family, edition 1, on yard, edition 1, on house, edition 3");
});

test("own headings that the book underneath has, or that hold nothing, are not drawn again", () => {
  const book = write(read(made), "dial slope", "instead dial slope = 1:12");
  expect(book.rows.filter((one) => one.keyword === "part").length).toBe(3);
  expect(
    drawnRows(book.rows)
      .filter((one) => one.keyword === "part")
      .map((one) => one.title),
  ).toEqual(["Bevel", "Work"]);
  const plain = readBook(BASE).rows;
  expect(drawnRows(plain)).toBe(plain);
});

test("what is dropped is named as the language wants it, with room for the reason where it wants one", () => {
  const book = read(made);
  expect(dropText(row(book, "step grind"))).toEqual({ text: "drop step grind", because: false });
  expect(dropText(row(book, "caution dust"))).toEqual({
    text: 'drop caution dust\n    because ""',
    because: true,
  });
  for (const [id, reason] of [
    ["step grind", ""],
    ["caution dust", "Wet work"],
    ["stop #1", "Deep is fine here"],
    ["promise #1", ""],
    ["chart pause", ""],
  ] as const) {
    const { text, because } = dropText(row(book, id))!;
    expect(because, id).toBe(reason !== "");
    const dropped = write(book, id, text.replace('""', `"${reason}"`));
    expect(
      dropped.findings
        .filter((one) => one.code.startsWith("layer/") && one.weight === "error")
        .map((one) => one.says),
      id,
    ).toEqual([]);
    expect(
      dropped.rows.some(
        (one) => !one.own && one.keyword === row(book, id).keyword && one.rule === row(book, id).rule,
      ),
      id,
    ).toBe(false);
    const drop = dropped.rows.find((one) => one.keyword === "drop")!;
    expect(drop.was?.layer).toBe("house");
    // Back to the book underneath: the own line goes, and the text has the row again.
    const back = read(applyEdits(dropped.text, removeStatement(dropped, drop.id)));
    expect(
      back.rows.some((one) => one.id === id && !one.own),
      id,
    ).toBe(true);
  }
});

test("at the ends of a layer's lines are its own values and none of the base book's", () => {
  const book = read(`${made}
part "Work"

step rinse "Rinse it" after grind
    takes 5 min

part "Bevel"

instead dial slope = 1:12
    from practice
`);
  expect(errors(book)).toEqual([]);
  const answers = { depth: "5 mm" };
  const values = lineValuesFor(
    { rows: book.rows, text: book.text, jobs: { one: showJob(workJob(book, answers), "book") } },
    { id: "one", name: "one", answers },
  );
  const lines = book.text.split("\n");
  expect(values.map(({ line, text }) => [lines[line - 1], text])).toEqual([
    ['step rinse "Rinse it" after grind', "do, 5 min"],
    ["instead dial slope = 1:12", "1:12"],
  ]);
});

test("a place in the base book is told by book and line, and its rows copy as text", () => {
  const book = read(made);
  const at = row(book, "dial slope").at;
  expect(lineAt(book, at)).toEqual({ layer: "house", line: 8, text: "dial slope = 1:10, from 1:8 to 1:15" });
  expect(
    lineAt(book, { start: made.indexOf("book yard"), end: made.indexOf("book yard") + 4 }),
  ).toMatchObject({ layer: "yard", line: 3 });
  expect(statementOf(book, row(book, "dial slope"))).toMatch(/^dial slope = 1:10[\s\S]*from practice$/);
});

test("a drop is counted for what it leaves out; counts of an older text are not final", () => {
  const book = write(read(made), "step grind", "drop  step grind  -- wet");
  expect(impactTarget(book.text, book.rows.find((one) => one.keyword === "drop")!)).toBe("step grind");
  const change = { id: "step grind", does: "dropped", says: "", details: [], wordsOnly: false } as const;
  const none = { worked: 0, moved: 0 };
  const state: ComparisonState = {
    running: false,
    wish: { before: BASE, after: book.text, logged: [], spread: 0 },
    view: {
      groups: [{ changes: [change], jobs: 4 }],
      moved: [],
      counts: { worked: none, logged: none, spread: none },
      reached: 0,
      toReach: 0,
      done: true,
      settled: 0,
      all: 0,
    },
  };
  expect(impactByRow(state, book.text).get("step grind")).toEqual({ jobs: 4, wordsOnly: false, done: true });
  expect(impactByRow(state, "other").get("step grind")!.done).toBe(false);
  expect([
    impactWords({ jobs: 1, wordsOnly: false, done: true }),
    impactWords({ jobs: 4, wordsOnly: false, done: false }),
    impactWords({ jobs: 0, wordsOnly: true, done: true }),
    impactWords({ jobs: 0, wordsOnly: false, done: true }),
  ]).toEqual(["moves 1 job", "moves 4 jobs so far", "only words", "moves no job"]);
});
