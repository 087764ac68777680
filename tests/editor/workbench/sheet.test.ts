// The sheet's pure parts: files that are books, cells as tab-separated text, rows found by height, ranges, a
// statement's basis.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../../core/span.ts";
import { readBook, showJob, workJob } from "../../../engine/index.ts";
import { cellOf, textOfCell } from "../../../editor/workbench/sheet/cells.ts";
import { fromTabs, looksLikeStatements, toTabs } from "../../../editor/workbench/sheet/copying.ts";
import { cellKey } from "../../../editor/workbench/sheet/sheet-keys.ts";
import { rowAt, topsOf } from "../../../editor/workbench/sheet/visible-rows.ts";
import { columnOrder, covered, placeFrom } from "../../../editor/workbench/sheet/cell-steps.ts";
import {
  asContinuation,
  basisEdit,
  editedSpan,
  firstText,
} from "../../../editor/workbench/sheet/statement-text.ts";
import { MAX_BOOK_BYTES } from "../../../core/limits.ts";
import { textOfFile } from "../../../editor/workbench/store/files.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("files", () => {
  it("opens UTF-8 text and evens its line ends", () => {
    expect(textOfFile("a.bevel", bytes("book a, edition 1\r\n-- é\r\n"))).toEqual({
      text: "book a, edition 1\n-- é\n",
    });
  });
  it.each([
    ["empty", new Uint8Array(), "is empty"],
    ["blank", bytes(" \n\n"), "only blank lines"],
    ["UTF-16", new Uint8Array([0xff, 0xfe, 0x62, 0]), "UTF-16"],
    ["Latin-1", new Uint8Array([0x62, 0xe9, 0x20]), "not UTF-8"],
    ["binary", bytes("a\0b"), "not a text file"],
    ["too large", new Uint8Array(MAX_BOOK_BYTES + 1).fill(97), "at most 2 MiB"],
  ])("refuses a file that is %s, in a sentence", (_name, content, says) => {
    const opened = textOfFile("x.bevel", content);
    expect("refused" in opened && opened.refused).toContain(says);
  });
});

describe("copying", () => {
  it("gives back any cells that it wrote", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5 }),
        fc.array(
          fc.array(fc.constantFrom("", "6 mm", "a\tb", 'say "x"', "two\nlines", "é"), {
            minLength: 1,
            maxLength: 5,
          }),
          { minLength: 1, maxLength: 5 },
        ),
        (width, rows) => {
          const even = rows.map((row) => Array.from({ length: width }, (_, n) => row[n] ?? "x"));
          // A lone empty cell at the end of the text cannot be told from a closing line end.
          if (width === 1 && even.at(-1)?.[0] === "") return;
          expect(fromTabs(toTabs(even))).toEqual(even);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });
  it("knows statements from answers", () => {
    expect(looksLikeStatements("-- why\ndial a = 4 mm")).toBe(true);
    expect(looksLikeStatements("6 mm\t4 mm")).toBe(false);
    expect(looksLikeStatements("steps")).toBe(false);
  });
});

describe("layout and places", () => {
  it("finds the row at a height", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 60 }),
        fc.nat(4000),
        (heights, y) => {
          const tops = topsOf(heights);
          const row = rowAt(tops, y);
          expect(tops[row]!).toBeLessThanOrEqual(y);
          if (row < heights.length - 1) expect(tops[row + 1]!).toBeGreaterThan(y);
        },
      ),
      { seed: 3, numRuns: 400 },
    );
  });
  it("moves within the sheet's edges and covers a range from any corner", () => {
    const jobs = [
      { id: "j1", name: "One", answers: {} },
      { id: "j2", name: "Two", answers: {} },
    ];
    const columns = columnOrder(jobs, true);
    const rows = ["ask a", "ask b", "ask c"];
    expect(placeFrom({ row: "ask a", column: "name" }, -1, -1, rows, columns)).toEqual({
      row: "ask a",
      column: "name",
    });
    expect(placeFrom({ row: "ask a", column: "basis" }, 5, 9, rows, columns)).toEqual({
      row: "ask c",
      column: { job: "j2" },
    });
    const range = covered(
      { from: { row: "ask c", column: { job: "j2" } }, to: { row: "ask b", column: { job: "j1" } } },
      rows,
      columns,
    );
    expect(range).toEqual({ rows: ["ask b", "ask c"], columns: [{ job: "j1" }, { job: "j2" }] });
  });
  it("leaves letters to be typed", () => {
    expect(cellKey({ key: "a", ctrlKey: false, metaKey: false, altKey: false })).toBeUndefined();
    expect(cellKey({ key: "ArrowDown", ctrlKey: false, metaKey: false, altKey: true })).toEqual({
      does: "shift",
      rows: 1,
    });
  });
});

const small = `book small, edition 1
    "Small"
kind face
    smooth "Smooth"
    rough  "Rough"
ask thickness in mm, 1 to 30
    "How thick?"
ask back of face
    "The back?"
dial house-taper = 1:10, from 1:8 to 1:20
    from practice
figure run = thickness run out at house-taper
    because "It runs out"
stop thick "Too thick" when thickness > 20 mm
step cut "Cut {run}" when back is rough
    takes 5 min
`;

describe("statements", () => {
  const book = readBook(small);
  const row = (id: string) => book.rows.find((one) => one.id === id)!;

  it("changes, adds and removes a basis and nothing else", () => {
    const changed = applyEdits(small, [basisEdit(small, row("dial house-taper"), 'house "the lead"')]);
    expect(changed).toBe(small.replace("from practice", 'from house "the lead"'));
    const added = applyEdits(small, [basisEdit(small, row("figure run"), "practice")]);
    expect(added).toBe(small.replace('because "It runs out"', 'because "It runs out"\n    from practice'));
    expect(applyEdits(small, [basisEdit(small, row("dial house-taper"), "")])).toBe(
      small.replace("\n    from practice", ""),
    );
  });

  it("edits a rule from its first letter, and keeps later lines in the statement", () => {
    const at = editedSpan(small, row("ask back"));
    expect(small.slice(at.start, at.end).startsWith("of face")).toBe(true);
    expect(asContinuation("a if b,\notherwise c\n")).toBe("a if b,\n    otherwise c");
  });

  it("begins each sort of statement with a text that the language reads as that sort", () => {
    const taken = new Set(["new-dial"]);
    expect(firstText("dial", taken)).toContain("dial new-dial-2 ");
    for (const keyword of [
      "kind",
      "ask",
      "dial",
      "formula",
      "list",
      "step",
      "caution",
      "stop",
      "part",
    ] as const) {
      const read = readBook(`${small}\n${firstText(keyword, new Set())}\n`);
      expect(read.rows.at(-1)?.keyword).toBe(keyword);
      expect(read.findings.filter((finding) => finding.code.startsWith("syntax/"))).toEqual([]);
    }
  });

  it("says in each cell what the job gives", () => {
    const answers = { thickness: "6 mm", back: "rough" };
    const job = { id: "j1", name: "One", answers };
    const view = showJob(workJob(book, answers));
    const text = (id: string) => textOfCell(cellOf(row(id), job, view));
    expect(text("ask thickness")).toBe("6 mm");
    // 6 mm at 1:10 runs out 60 mm: common practice, arithmetic by hand.
    expect(text("figure run")).toBe("60 mm");
    expect(text("step cut")).toBe("do, 5 min");
    expect(text("stop thick")).toBe("no");
    const stopped = showJob(workJob(book, { thickness: "25 mm", back: "rough" }));
    expect(
      textOfCell(
        cellOf(row("stop thick"), { ...job, answers: { thickness: "25 mm", back: "rough" } }, stopped),
      ),
    ).toBe("stops");
    expect(textOfCell(cellOf(row("step cut"), job, stopped))).toBe("held");
    const bad = showJob(workJob(book, { thickness: "6 kg" }));
    expect(cellOf(row("ask thickness"), { ...job, answers: { thickness: "6 kg" } }, bad)).toMatchObject({
      is: "answer",
      wrong: expect.any(String),
    });
  });
});
