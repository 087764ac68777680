// What the sheet's edits do to the book's text. An edit of one place is made against the snapshot that the person
// saw, and moved along with what changed since; one that depends on other rows asks for those of the text as it
// is.
import type { Span, TextEdit } from "../../core/span.ts";
import type { Finding, Row } from "../../core/view.ts";
import type { Outline, Tried } from "../client/engine/messages.ts";
import type { WorkbenchStore } from "./store/document.ts";
import { renamedDocument } from "./renaming.ts";
import { amendHead, isLayer, ownPlace, ownRows } from "./sheet/layer-rows.ts";
import { asContinuation, basisEdit, editedSpan } from "./sheet/statement-text.ts";

export interface SheetEdits {
  rule(id: string, typed: string): Promise<void>;
  name(id: string, typed: string): Promise<void>;
  basis(id: string, typed: string): Promise<void>;
  insert(after: string | undefined, statement: string): Promise<void>;
  shift(id: string, by: -1 | 1): Promise<void>;
  /** To the end of the part with this title. */
  toPart(id: string, part: string): Promise<void>;
  remove(id: string): Promise<void>;
  repair(finding: Finding): Promise<void>;
  attempt(at: Span, within: Span, draft: string, caret: number): Promise<Tried | undefined>;
  /** A row underneath takes another rule in the own text: `instead` is written there. */
  amend(id: string, typed: string): Promise<void>;
  tryAmend(row: Row, draft: string, caret: number): Promise<Tried | undefined>;
}

interface FoundRow {
  readonly rows: readonly Row[];
  readonly row: Row;
  readonly place: number;
  readonly text: string;
}

function found(of: Pick<Outline, "rows" | "text"> | undefined, id: string): FoundRow | undefined {
  const place = of?.rows.findIndex((row) => row.id === id) ?? -1;
  const row = of?.rows[place];
  return of && row ? { rows: of.rows, row, place, text: of.text } : undefined;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function sheetEdits(store: WorkbenchStore): SheetEdits {
  const rowIn = async (id: string): Promise<FoundRow | undefined> => found(await store.outline(), id);

  /** At once by the snapshot that is shown; by the text as it is where that place was changed since. */
  const editRow = async (id: string, editOf: (row: FoundRow) => TextEdit): Promise<void> => {
    const shown = found(store.state().snapshot, id);
    if (shown && store.edit([editOf(shown)], shown.text)) return;
    const now = await rowIn(id);
    if (now) store.edit([editOf(now)], now.text);
  };

  const insert = async (after: string | undefined, statement: string): Promise<void> => {
    if (statement.trim() === "") return;
    const snapshot = await store.outline();
    const beside = snapshot?.rows.find((row) => row.id === after);
    // Beside a row underneath there is no place in the own text: there it goes under a heading of the same
    // title.
    const place =
      snapshot !== undefined && isLayer(snapshot) && (beside === undefined || !beside.own)
        ? ownPlace(snapshot.rows, beside?.part ?? "")
        : { after, heading: undefined };
    const text =
      place.heading === undefined ? statement.trim() : `part "${place.heading}"\n\n${statement.trim()}`;
    const done = await store.statement({ does: "insert", after: place.after, statement: text });
    if (done === undefined) {
      store.tell("The statement could not be put there.", "trouble");
      return;
    }
    if (done.row === undefined) return;
    await store.shown();
    store.choose({ row: done.row, column: "rule" });
  };

  return {
    amend: async (id, typed) => {
      const found = await rowIn(id);
      if (found) await insert(id, `${amendHead(found.row)}${asContinuation(typed)}`);
    },
    tryAmend: async (row, draft, caret) => {
      const { text } = store.state().desk;
      if (store.state().snapshot?.text !== text) return undefined;
      const head = `${text.trimEnd()}\n\n${amendHead(row)}`;
      const put = asContinuation(draft);
      const answer = await store.ask((engine) =>
        engine.attempt(
          head + put,
          { start: head.length - amendHead(row).length, end: head.length + put.length },
          head.length + caret,
        ),
      );
      if (!answer) return undefined;
      const findings = answer.findings.map((finding) => moved(finding, -head.length));
      if (put !== draft.slice(0, put.length) || !answer.offers) return { findings };
      return {
        findings,
        offers: {
          at: { start: answer.offers.at.start - head.length, end: answer.offers.at.end - head.length },
          offers: answer.offers.offers,
        },
      };
    },
    rule: (id, typed) =>
      editRow(id, ({ text, row }) => ({ at: editedSpan(text, row), text: asContinuation(typed) })),
    name: async (id, typed) => {
      const found = await rowIn(id);
      if (!found?.row.nameAt || typed === "" || typed === found.row.name) return;
      const renamed = await renamedDocument(store, found.row.nameAt.start, typed);
      if ("refused" in renamed) {
        store.tell(renamed.refused, "trouble");
        return;
      }
      store.setDesk(renamed.desk);
      store.choose({ row: `${found.row.keyword} ${typed}`, column: "name" });
    },
    basis: (id, typed) => editRow(id, ({ text, row }) => basisEdit(text, row, typed)),
    insert,
    shift: async (id, by) => {
      const found = await rowIn(id);
      if (!found) return;
      if (!found.row.own) {
        store.tell(`This stands in ${found.row.layer}: only what this book says itself is moved.`);
        return;
      }
      // A layer's own statements are moved among themselves, in the order of its text.
      const rows = ownRows(found.rows);
      const place = rows.indexOf(found.row);
      const after = by < 0 ? (rows[place - 2]?.id ?? "") : rows[place + 1]?.id;
      if (after === undefined || (by < 0 && (place === 0 || rows[place - 1]?.keyword === "book"))) return;
      await store.statement({ does: "move", id, after });
    },
    toPart: async (id, part) => {
      const found = await rowIn(id);
      const last = found?.rows
        .filter((row) => row.own)
        .filter((row) => row.part === part || (row.keyword === "part" && row.title === part))
        .at(-1);
      if (last && last.id !== id) await store.statement({ does: "move", id, after: last.id });
    },
    remove: async (id) => {
      const found = await rowIn(id);
      if (!found) return;
      if (await store.statement({ does: "remove", id })) {
        const next = found.rows[found.place + 1] ?? found.rows[found.place - 1];
        if (next) store.choose({ row: next.id, column: "name" });
        if (found.row.was !== undefined) {
          store.tell(
            `${capital(found.row.keyword === "drop" ? "What was dropped" : `${found.row.keyword} ${found.row.name ?? ""}`.trim())} is as ${found.row.was.layer} has it again. Undo brings this book's own line back.`,
          );
          return;
        }
        store.tell(
          `Removed ${found.row.keyword} ${found.row.name ?? ""}. Undo brings it back.`
            .replace("  ", " ")
            .replace(" .", "."),
        );
      }
    },
    repair: async (finding) => {
      const outline = await store.outline();
      // The place may have moved since it was shown: the same finding is looked for again.
      const now = outline?.findings
        .filter((one) => one.code === finding.code && one.says === finding.says)
        .sort((a, b) => Math.abs(a.at.start - finding.at.start) - Math.abs(b.at.start - finding.at.start))[0];
      const repair = now?.repairs[0];
      if (outline && repair) store.edit(repair.edits, outline.text);
    },
    attempt: async (at, within, draft, caret) => {
      const { text } = store.state().desk;
      if (store.state().snapshot?.text !== text) return undefined;
      const isNew = at.start === at.end;
      const gap = isNew ? "\n\n" : "";
      const put = isNew ? draft.trimEnd() : asContinuation(draft);
      const from = at.start + gap.length;
      const tried = text.slice(0, at.start) + gap + put + text.slice(at.end);
      const end = isNew ? from + put.length : within.end + put.length - (at.end - at.start);
      const answer = await store.ask((engine) =>
        engine.attempt(tried, { start: isNew ? from : within.start, end }, from + caret),
      );
      if (!answer) return undefined;
      const findings = answer.findings.map((finding) => moved(finding, -from));
      if (put !== draft.slice(0, put.length) || !answer.offers) return { findings };
      return {
        findings,
        offers: {
          at: { start: answer.offers.at.start - from, end: answer.offers.at.end - from },
          offers: answer.offers.offers,
        },
      };
    },
  };
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const moved = (finding: Finding, by: number): Finding => ({
  ...finding,
  at: { start: finding.at.start + by, end: finding.at.end + by },
  repairs: finding.repairs.map((repair) => ({
    ...repair,
    edits: repair.edits.map((edit) => ({
      ...edit,
      at: { start: edit.at.start + by, end: edit.at.end + by },
    })),
  })),
});
