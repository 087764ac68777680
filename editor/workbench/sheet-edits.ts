// What the sheet's edits do to the book's text. An edit of one place is made against the snapshot that the
// person saw, and moved along with what changed since; one that depends on other rows asks for those of the
// text as it is.
import { capitalise } from "../../core/capitalise.ts";
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

/** The row in the text as it is now. */
const rowIn = async (store: WorkbenchStore, id: string): Promise<FoundRow | undefined> =>
  found(await store.outline(), id);

export const sheetEdits = (store: WorkbenchStore): SheetEdits => ({
  ...cellEdits(store),
  ...rowMoves(store),
  ...tries(store),
  insert: (after, statement) => insert(store, after, statement),
  amend: async (id, typed) => {
    const found = await rowIn(store, id);
    if (found) await insert(store, id, `${amendHead(found.row)}${asContinuation(typed)}`);
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
});

async function insert(store: WorkbenchStore, after: string | undefined, statement: string): Promise<void> {
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
}

/** Edits of what one cell shows. */
function cellEdits(store: WorkbenchStore): Pick<SheetEdits, "rule" | "name" | "basis"> {
  /** At once by the snapshot that is shown; by the text as it is where that place was changed since. */
  const editRow = async (id: string, editOf: (row: FoundRow) => TextEdit): Promise<void> => {
    const shown = found(store.state().snapshot, id);
    if (shown && store.edit([editOf(shown)], shown.text)) return;
    const now = await rowIn(store, id);
    if (now) store.edit([editOf(now)], now.text);
  };
  return {
    rule: (id, typed) =>
      editRow(id, ({ text, row }) => ({ at: editedSpan(text, row), text: asContinuation(typed) })),
    name: async (id, typed) => {
      const found = await rowIn(store, id);
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
  };
}

/** Whole statements go to another place or away. */
const rowMoves = (store: WorkbenchStore): Pick<SheetEdits, "shift" | "toPart" | "remove"> => ({
  shift: async (id, by) => {
    const found = await rowIn(store, id);
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
    const found = await rowIn(store, id);
    const last = found?.rows
      .filter((row) => row.own)
      .filter((row) => row.part === part || (row.keyword === "part" && row.title === part))
      .at(-1);
    if (last && last.id !== id) await store.statement({ does: "move", id, after: last.id });
  },
  remove: async (id) => {
    const found = await rowIn(store, id);
    if (!found || !(await store.statement({ does: "remove", id }))) return;
    const next = found.rows[found.place + 1] ?? found.rows[found.place - 1];
    if (next) store.choose({ row: next.id, column: "name" });
    store.tell(removedWords(found.row));
  },
});

function removedWords({ keyword, name = "", was }: Row): string {
  if (was === undefined)
    return `Removed ${keyword} ${name}. Undo brings it back.`.replace("  ", " ").replace(" .", ".");
  const what = keyword === "drop" ? "What was dropped" : `${keyword} ${name}`.trim();
  return `${capitalise(what)} is as ${was.layer} has it again. Undo brings this book's own line back.`;
}

/** What a draft would give, before it is in the text. */
function tries(store: WorkbenchStore): Pick<SheetEdits, "attempt" | "tryAmend"> {
  /** Asks the engine about `text`; what it finds is placed from `from`, where the draft begins. */
  const attempt = async (
    { text, within, from, put }: Attempted,
    draft: string,
    caret: number,
  ): Promise<Tried | undefined> => {
    const answer = await store.ask((engine) => engine.attempt(text, within, from + caret));
    if (!answer) return undefined;
    const findings = answer.findings.map((finding) => moved(finding, -from));
    if (put !== draft.slice(0, put.length) || !answer.offers) return { findings };
    const { at, offers } = answer.offers;
    return { findings, offers: { at: { start: at.start - from, end: at.end - from }, offers } };
  };
  /** The text on the bench; undefined while the sheet shows an older one. */
  const shownText = (): string | undefined => {
    const { desk, snapshot } = store.state();
    return snapshot?.text === desk.text ? desk.text : undefined;
  };
  return {
    tryAmend: async (row, draft, caret) => {
      const text = shownText();
      if (text === undefined) return undefined;
      const head = `${text.trimEnd()}\n\n${amendHead(row)}`;
      const put = asContinuation(draft);
      const start = head.length - amendHead(row).length;
      const within = { start, end: head.length + put.length };
      return attempt({ text: head + put, within, from: head.length, put }, draft, caret);
    },
    attempt: async (at, within, draft, caret) => {
      const text = shownText();
      if (text === undefined) return undefined;
      const isNew = at.start === at.end;
      const gap = isNew ? "\n\n" : "";
      const put = isNew ? draft.trimEnd() : asContinuation(draft);
      const from = at.start + gap.length;
      const tried = text.slice(0, at.start) + gap + put + text.slice(at.end);
      const end = isNew ? from + put.length : within.end + put.length - (at.end - at.start);
      const span = { start: isNew ? from : within.start, end };
      return attempt({ text: tried, within: span, from, put }, draft, caret);
    },
  };
}

interface Attempted {
  readonly text: string;
  /** The statement. */
  readonly within: Span;
  readonly from: number;
  /** The draft as it was put into the text. */
  readonly put: string;
}

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
