// The sheet: rules down the side under their part headings, jobs across the top, values in the cells. Only
// the rows that are seen are drawn.
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { ClipboardEvent, KeyboardEvent, ReactNode } from "react";
import type { Span } from "../../../core/span.ts";
import type { Finding, Row } from "../../../core/view.ts";
import type { Snapshot, Tried } from "../../client/engine/messages.ts";
import type { Place } from "../store/document.ts";
import { causesFirst } from "../findings/causes-first.ts";
import { AnswerEditor } from "./answer-editor.tsx";
import type { After } from "./answer-editor.tsx";
import { cellOf, textOfCell } from "./cells.ts";
import { fromTabs, looksLikeStatements, toTabs } from "./copying.ts";
import { JobTagHead } from "./job-tags.tsx";
import { cellKey } from "./sheet-keys.ts";
import { columnsFor, columnsForPaper, heightOf, paperWidth, rowAt, topsOf } from "./layout.ts";
import { amendFirst, amendedBy, dialSpan, isLayer, lineAt, movesOf, statementOf } from "./layer-rows.ts";
import { LineEditor } from "./line-editor.tsx";
import type { Moves } from "./layer-impact.ts";
import { columnKey, columnOrder, covered, placeFrom, placeKey, samePlace } from "./cell-steps.ts";
import type { Column } from "./cell-steps.ts";
import { fewShown, groupFindings } from "./row-findings.ts";
import { RuleEditor } from "./rule-editor.tsx";
import { SheetRow } from "./sheet-row.tsx";
import { basisWords, editedSpan } from "./statement-text.ts";
import type { AskInks } from "./use-token-colours.ts";
import { useInks } from "./use-token-colours.ts";
import { usePrinting } from "./use-printing.ts";
import { useStable } from "./use-stable.ts";
import "./sheet.css";
import type { JobTag } from "../../client/storage/stored-work.ts";

export interface SheetProps {
  readonly snapshot: Snapshot;
  readonly jobs: readonly JobTag[];
  /** Rows that the filter and the search leave, in the book's order. */
  readonly rows: readonly Row[];
  readonly chosen?: Place;
  /** Row that a trace points at. */
  readonly lit?: string;
  readonly readOnly: boolean;
  /** Counts up when the sheet shall take the focus at the chosen place. */
  readonly focusCall: number;
  /** A statement being written: under which row, its first text, and where in it the cursor begins. */
  readonly draft?: { readonly after: string | undefined; readonly text: string; readonly caret?: number };
  readonly onChoose: (place: Place) => void;
  readonly onRule: (row: string, typed: string) => void;
  readonly onName: (row: string, typed: string) => void;
  readonly onBasis: (row: string, typed: string) => void;
  readonly onAnswers: (
    answers: readonly { readonly job: string; readonly ask: string; readonly text: string }[],
  ) => void;
  readonly onDraft: (typed: string | undefined) => void;
  readonly onPasteStatements: (after: string, text: string) => void;
  readonly onShift: (row: string, by: -1 | 1) => void;
  readonly onRemove: (row: string) => void;
  readonly onOpenChart: (name: string) => void;
  readonly onOpenWhy: () => void;
  /** Told which row is pointed at, so that a trace can light its lines up. */
  readonly onPoint: (row: string | undefined) => void;
  readonly onOpenJob: (id: string) => void;
  readonly onAddJob: () => void;
  readonly onRepair: (finding: Finding) => void;
  /** Tries a draft in the place of a stretch of the text. Answers count from the start of the draft. */
  readonly onTry: (
    at: { readonly start: number; readonly end: number },
    within: { readonly start: number; readonly end: number },
    draft: string,
    caret: number,
  ) => Promise<Tried | undefined>;
  readonly onTell: (says: string) => void;
  /** A row underneath takes another rule here. */
  readonly onAmend: (row: string, typed: string) => void;
  readonly onTryAmend: (row: Row, draft: string, caret: number) => Promise<Tried | undefined>;
  /** A row underneath is to be written anew as a whole. */
  readonly onAmendWhole: (row: string) => void;
  /** What each own line of a layer moves, by row; the press shows the jobs. */
  readonly moves: ReadonlyMap<string, Moves>;
  readonly onMoves: (row: string) => void;
  /** Counts up when the rule of the chosen row shall be opened to be written. */
  readonly amendCall: number;
  readonly onInks: AskInks;
}

const headHeight = 144;

export function Sheet(props: SheetProps) {
  const { snapshot, jobs, rows, chosen } = props;
  const scroller = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 900, height: 600 });
  const [scrollTop, setScrollTop] = useState(0);
  const [editing, setEditing] = useState<{ readonly place: Place; readonly first: string }>();
  const [editHeight, setEditHeight] = useState(0);
  const [mark, setMark] = useState<Place>();
  const wantsFocus = useRef(false);
  const printing = usePrinting();

  useLayoutEffect(() => {
    const drawn = scroller.current;
    if (!drawn) return undefined;
    const measure = (): void => setSize({ width: drawn.clientWidth, height: drawn.clientHeight });
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(drawn);
    return () => watch.disconnect();
  }, []);

  const columns = useMemo(
    () => (printing ? columnsForPaper(jobs.length) : columnsFor(size.width, jobs.length)),
    [size.width, jobs.length, printing],
  );
  const order = useMemo(() => columnOrder(jobs, columns.basis > 0), [jobs, columns.basis]);
  const ids = useMemo(() => rows.map((row) => row.id), [rows]);
  const findingsByRow = useMemo(() => groupFindings(snapshot.findings, rows), [snapshot.findings, rows]);
  const asks = useMemo(() => new Map(snapshot.asks.map((ask) => [ask.name, ask])), [snapshot.asks]);
  const added = useMemo(() => new Set(snapshot.before?.added ?? []), [snapshot.before]);
  const editRow = editing?.place.row;
  const draftAfter = props.draft ? (props.draft.after ?? ids.at(-1)) : undefined;

  const shownFindings = useCallback(
    (row: Row): readonly Finding[] => {
      const all = findingsByRow.get(row.id) ?? none;
      if (editRow === row.id) return none;
      return fewShown(
        causesFirst(
          all.filter(
            (finding) =>
              finding.weight === "error" || (chosen?.row === row.id && finding.weight === "warning"),
          ),
        ),
      );
    },
    [findingsByRow, chosen?.row, editRow],
  );

  const layered = isLayer(snapshot);
  const where = useStable((at: Span) => lineAt(snapshot, at));
  const showMoves = useStable((row: string) => props.onMoves(row));
  const cellHeights = useMemo(
    () =>
      rows.map((row) =>
        heightOf({
          row,
          columns,
          layered,
          findings: none,
          oldRule: oldRuleOf(snapshot, row),
          width: size.width,
        }),
      ),
    [rows, columns, layered, snapshot.before, size.width],
  );
  const heights = useMemo(
    () =>
      rows.map((row) => {
        const natural = heightOf({
          row,
          columns,
          layered,
          findings: shownFindings(row),
          oldRule: oldRuleOf(snapshot, row),
          width: size.width,
        });
        const edited =
          editRow === row.id && editHeight > 0
            ? Math.max(natural, editHeight + 14 + (columns.stacked ? 30 : 0))
            : natural;
        return draftAfter === row.id ? edited + Math.max(120, editHeight + 20) : edited;
      }),
    [rows, columns, layered, shownFindings, snapshot.before, size.width, editRow, editHeight, draftAfter],
  );
  const tops = useMemo(() => topsOf(heights), [heights]);
  const total = tops.at(-1) ?? 0;

  const template = columns.stacked
    ? `${columns.name}px repeat(${jobs.length}, ${columns.job}px)`
    : `${columns.name}px ${columns.rule}px ${columns.basis > 0 ? `${columns.basis}px ` : ""}repeat(${jobs.length}, ${columns.job}px)`;
  const lead = columns.stacked ? columns.name : columns.name + columns.rule + columns.basis;
  const width = printing ? paperWidth : Math.max(size.width, lead + jobs.length * columns.job + 56);

  // Rows to draw: those seen, some around them, and the one that holds the focus.
  const first = Math.max(0, rowAt(tops, scrollTop) - 4);
  const last = Math.min(rows.length - 1, rowAt(tops, scrollTop + size.height) + 4);
  const held = chosen ? ids.indexOf(chosen.row) : -1;
  const drawn: number[] = printing ? rows.map((_, n) => n) : [];
  if (!printing) {
    if (held >= 0 && held < first) drawn.push(held);
    for (let n = first; n <= last; n += 1) drawn.push(n);
    if (held > last) drawn.push(held);
  }

  const inksOf = useInks(
    drawn.flatMap((n) => rows[n] ?? []),
    props.onInks,
  );

  const range = useMemo(
    () => (mark && chosen ? covered({ from: mark, to: chosen }, ids, order) : undefined),
    [mark, chosen, ids, order],
  );
  const rangedRows = useMemo(() => new Set(range?.rows ?? []), [range]);
  const rangedColumns = useMemo(() => new Set(range?.columns.map(columnKey) ?? []), [range]);

  const reveal = useCallback(
    (place: Place): void => {
      const area = scroller.current;
      const at = ids.indexOf(place.row);
      if (!area || at < 0) return;
      const top = tops[at] ?? 0;
      const bottom = Math.min(tops[at + 1] ?? top, top + size.height - headHeight);
      const seen = size.height - headHeight;
      if (top < area.scrollTop) area.scrollTop = top;
      else if (bottom > area.scrollTop + seen) area.scrollTop = bottom - seen;
      if (typeof place.column === "object") {
        const { job } = place.column;
        const left = lead + jobs.findIndex((one) => one.id === job) * columns.job;
        if (left - columns.name < area.scrollLeft) area.scrollLeft = left - columns.name;
        else if (left + columns.job > area.scrollLeft + size.width)
          area.scrollLeft = left + columns.job - size.width;
      } else area.scrollLeft = 0;
    },
    [ids, tops, size, lead, jobs, columns],
  );

  useEffect(() => {
    if (!chosen || editing || props.draft) return;
    if (wantsFocus.current) {
      wantsFocus.current = false;
      focusPlace(scroller.current, chosen);
    }
  });
  // The chosen place may come from elsewhere: a finding, the trace, the text face.
  const revealed = useRef("");
  useEffect(() => {
    // Also when the filter lets other rows through.
    const key = chosen ? `${placeKey(chosen)} ${ids.length}` : "";
    if (chosen && key !== revealed.current) reveal(chosen);
    revealed.current = key;
  }, [chosen, reveal, ids.length]);
  useEffect(() => {
    if (props.focusCall > 0) {
      wantsFocus.current = true;
      if (chosen) {
        reveal(chosen);
        focusPlace(scroller.current, chosen);
      }
    }
  }, [props.focusCall]);

  const go = (place: Place, extend: boolean): void => {
    setMark(extend ? (mark ?? chosen) : undefined);
    wantsFocus.current = true;
    reveal(place);
    props.onChoose(place);
  };

  const pick = useStable((row: string, column: Column, extend: boolean) => {
    const place: Place = { row, column };
    const again = samePlace(chosen, place) && !extend && mark === undefined;
    setMark(extend ? (mark ?? chosen) : undefined);
    if (again && typeof column === "object" && rows.find((one) => one.id === row)?.keyword === "ask") {
      open(row, column);
      return;
    }
    if (!again) props.onChoose(place);
  });

  const open = useStable((id: string, column: Column, first?: string) => {
    const row = rows.find((one) => one.id === id);
    if (!row) return;
    if (typeof column === "object") {
      if (row.keyword !== "ask") {
        props.onOpenWhy();
        return;
      }
      if (props.readOnly) {
        props.onTell("Another tab is editing this book.");
        return;
      }
      const job = jobs.find((one) => one.id === column.job);
      setEditing({ place: { row: id, column }, first: first ?? job?.answers[row.name ?? ""] ?? "" });
      return;
    }
    if (props.readOnly) {
      props.onTell("Another tab is editing this book.");
      return;
    }
    if (!row.own) {
      amend(row, column);
      return;
    }
    if (column === "rule" && row.keyword === "chart") {
      props.onOpenChart(row.name ?? "");
      return;
    }
    if (column === "name" && !row.nameAt && row.keyword !== "part") {
      open(id, "rule");
      return;
    }
    const at = editedSpan(snapshot.text, row);
    const now =
      column === "name" && row.keyword !== "part"
        ? (row.name ?? "")
        : column === "basis"
          ? (row.basis ?? "")
          : snapshot.text.slice(at.start, at.end);
    setEditHeight(0);
    setEditing({ place: { row: id, column }, first: now });
  });

  // The book underneath is not written into: an edit of its row is a statement of the own text.
  const amend = (row: Row, column: "name" | "rule" | "basis"): void => {
    if (column === "name" && row.name !== undefined) {
      props.onTell(`Its name is given in ${row.layer}. Its rule can be amended here.`);
      return;
    }
    switch (amendedBy(row)) {
      case "rule":
        if (column === "basis") {
          props.onAmendWhole(row.id);
          return;
        }
        setEditHeight(0);
        setEditing({ place: { row: row.id, column: "rule" }, first: amendFirst(row) });
        return;
      case "chart":
        if (column === "basis") props.onTell(`Its basis stands in ${row.layer}.`);
        else props.onOpenChart(row.name ?? "");
        return;
      case "statement":
        props.onAmendWhole(row.id);
        return;
      case "not":
        props.onTell(`This stands in ${row.layer} and is kept as it is there.`);
        return;
    }
  };

  const stop = (again = true): void => {
    setEditing(undefined);
    setEditHeight(0);
    if (again) wantsFocus.current = true;
  };

  // A call that was answered before is not answered again by a sheet that is opened anew.
  const answeredCall = useRef(props.amendCall);
  useEffect(() => {
    if (props.amendCall !== answeredCall.current && chosen) open(chosen.row, "rule");
    answeredCall.current = props.amendCall;
  }, [props.amendCall]);

  const shownText = (row: Row, column: Column): string => {
    if (column === "name") return row.name ?? row.keyword;
    if (column === "rule") return row.rule;
    if (column === "basis") return row.basis ?? "";
    const job = jobs.find((one) => one.id === column.job);
    return job ? textOfCell(cellOf(row, job, snapshot.jobs[job.id])) : "";
  };
  const byId = useMemo(() => new Map(rows.map((row) => [row.id, row])), [rows]);

  const press = (event: KeyboardEvent): void => {
    if (!chosen || editing || props.draft || event.defaultPrevented) return;
    const at = byId.get(chosen.row);
    const does = cellKey(event);
    if (!does) {
      const typing = event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
      if (typing && event.key !== " " && at?.keyword === "ask" && typeof chosen.column === "object") {
        event.preventDefault();
        event.stopPropagation();
        open(chosen.row, chosen.column, event.key);
      }
      return;
    }
    event.preventDefault();
    switch (does.does) {
      case "move":
        go(placeFrom(chosen, does.down, does.right, ids, order), event.shiftKey);
        return;
      case "page": {
        const from = ids.indexOf(chosen.row);
        const to = rowAt(tops, (tops[from] ?? 0) + does.pages * Math.max(100, size.height - headHeight - 60));
        go({ row: ids[to] ?? chosen.row, column: chosen.column }, event.shiftKey);
        return;
      }
      case "edge":
        switch (does.to) {
          case "first-column":
            go({ ...chosen, column: order[0] ?? "name" }, event.shiftKey);
            return;
          case "last-column":
            go({ ...chosen, column: order.at(-1) ?? "name" }, event.shiftKey);
            return;
          case "first-row":
            go({ ...chosen, row: ids[0] ?? chosen.row }, event.shiftKey);
            return;
          case "last-row":
            go({ ...chosen, row: ids.at(-1) ?? chosen.row }, event.shiftKey);
            return;
        }
        return;
      case "open":
        open(chosen.row, chosen.column);
        return;
      case "clear": {
        if (chosen.column === "name" && !mark) {
          props.onRemove(chosen.row);
          return;
        }
        const cells = range ?? { rows: [chosen.row], columns: [chosen.column] };
        props.onAnswers(answersIn(cells.rows, cells.columns).map((one) => ({ ...one, text: "" })));
        return;
      }
      case "shift":
        props.onShift(chosen.row, does.rows);
        return;
    }
  };

  const answersIn = (
    inRows: readonly string[],
    inColumns: readonly Column[],
  ): { job: string; ask: string }[] =>
    inRows.flatMap((id) => {
      const row = byId.get(id);
      return row?.keyword === "ask" && row.name !== undefined
        ? inColumns.flatMap((column) =>
            typeof column === "object" ? [{ job: column.job, ask: row.name ?? "" }] : [],
          )
        : [];
    });

  const copy = (event: ClipboardEvent): void => {
    if (!chosen || editing || props.draft) return;
    event.preventDefault();
    const cells = range ?? { rows: [chosen.row], columns: [chosen.column] };
    const whole = cells.columns.length === 1 && cells.columns[0] === "name";
    const copied = whole
      ? cells.rows
          .map((id) => {
            const row = byId.get(id);
            return row ? statementOf(snapshot, row) : "";
          })
          .join("\n\n") + "\n"
      : toTabs(
          cells.rows.map((id) => {
            const row = byId.get(id);
            return row ? cells.columns.map((column) => shownText(row, column)) : [];
          }),
        );
    event.clipboardData.setData("text/plain", copied);
    props.onTell(
      whole
        ? `Copied ${cells.rows.length === 1 ? "the statement" : `${cells.rows.length} statements`} as text.`
        : `Copied ${cells.rows.length} × ${cells.columns.length} cells.`,
    );
  };

  const paste = (event: ClipboardEvent): void => {
    if (!chosen || editing || props.draft) return;
    const pasted = event.clipboardData.getData("text/plain");
    if (pasted.trim() === "") return;
    event.preventDefault();
    if (looksLikeStatements(pasted)) {
      props.onPasteStatements(chosen.row, pasted);
      return;
    }
    const cells = fromTabs(pasted);
    const startColumn = order.findIndex((column) => columnKey(column) === columnKey(chosen.column));
    const askRows = ids.slice(ids.indexOf(chosen.row)).filter((id) => byId.get(id)?.keyword === "ask");
    const answers = cells.flatMap((line, n) => {
      const ask = byId.get(askRows[n] ?? "")?.name;
      return ask === undefined
        ? []
        : line.flatMap((text, m) => {
            const column = order[startColumn + m];
            return typeof column === "object" ? [{ job: column.job, ask, text }] : [];
          });
    });
    if (answers.length === 0)
      props.onTell("Nothing was pasted: choose a job's cell for answers, or copy whole statements.");
    else {
      props.onAnswers(answers);
      props.onTell(`Pasted ${answers.length} ${answers.length === 1 ? "answer" : "answers"}.`);
    }
  };

  const editorFor = (row: Row): { column: string; node: ReactNode } | undefined => {
    if (!editing || editing.place.row !== row.id) return undefined;
    const { column } = editing.place;
    const key = columnKey(column);
    if (typeof column === "object") {
      const name = row.name ?? "";
      const keep = (text: string, after: After): void => {
        stop(after !== "stay");
        props.onAnswers([{ job: column.job, ask: name, text }]);
        const nextAsk = rows.slice(rows.indexOf(row) + 1).find((one) => one.keyword === "ask");
        if (after === "down" && nextAsk) go({ row: nextAsk.id, column }, false);
        if (after === "right") go(placeFrom({ row: row.id, column }, 0, 1, ids, order), false);
      };
      return {
        column: key,
        node: (
          <AnswerEditor
            key={placeKey(editing.place)}
            label={`${name} of ${jobs.find((one) => one.id === column.job)?.name ?? "this job"}`}
            ask={asks.get(name)}
            first={editing.first}
            onKeep={keep}
            onDrop={() => stop()}
          />
        ),
      };
    }
    if (column === "rule" || (column === "name" && row.keyword === "part")) {
      if (!row.own) {
        const span = dialSpan(row);
        return {
          column: key,
          node: (
            <RuleEditor
              key={placeKey(editing.place)}
              label={`Rule of ${row.name ?? row.keyword}`}
              first={editing.first}
              onHeight={setEditHeight}
              says={`Amends it here${span === undefined ? "" : `, ${span}`}. ${row.layer} keeps its own.`}
              onTry={(draft, caret) => props.onTryAmend(row, draft, caret)}
              refuses={beyondSpan}
              onDrop={() => stop()}
              onKeep={(draft) => {
                stop();
                if (draft.trim() !== "" && draft !== editing.first) props.onAmend(row.id, draft);
              }}
            />
          ),
        };
      }
      const at = editedSpan(snapshot.text, row);
      return {
        column: key,
        node: (
          <RuleEditor
            key={placeKey(editing.place)}
            label={`Rule of ${row.name ?? row.keyword}`}
            first={editing.first}
            onHeight={setEditHeight}
            onTry={(draft, caret) => props.onTry(at, row.at, draft, caret)}
            onDrop={() => stop()}
            onKeep={(draft) => {
              stop();
              if (draft !== editing.first) props.onRule(row.id, draft);
            }}
          />
        ),
      };
    }
    const words = column === "basis" ? basisWords : [];
    return {
      column: key,
      node: (
        <LineEditor
          key={placeKey(editing.place)}
          label={column === "basis" ? `Basis of ${row.name ?? row.keyword}` : `Name of this ${row.keyword}`}
          first={editing.first}
          words={words}
          onDrop={() => stop()}
          onKeep={(typed) => {
            stop();
            if (typed !== editing.first) {
              if (column === "basis") props.onBasis(row.id, typed);
              else props.onName(row.id, typed);
            }
          }}
        />
      ),
    };
  };

  const draftAt = props.draft
    ? draftAfter === undefined
      ? 0
      : (tops[ids.indexOf(draftAfter) + 1] ?? total) - Math.max(120, editHeight + 20)
    : 0;
  const draftPoint = props.draft
    ? props.draft.after === undefined
      ? snapshot.text.length
      : Math.min(byId.get(props.draft.after)?.at.end ?? snapshot.text.length, snapshot.text.length)
    : 0;

  return (
    <div
      className={`sheet${columns.stacked ? " is-stacked" : ""}`}
      ref={scroller}
      onScroll={(event) => setScrollTop(event.currentTarget.scrollTop)}
      style={{ ["--seen" as string]: `${size.width}px` }}
    >
      <div
        role="grid"
        aria-label="The sheet: rules down the side, jobs across"
        aria-rowcount={rows.length + 1}
        aria-colcount={order.length}
        onKeyDown={press}
        onMouseOver={(event) => props.onPoint(rowUnder(event.target))}
        onMouseLeave={() => props.onPoint(undefined)}
        onCopy={copy}
        onPaste={paste}
        style={{ width }}
      >
        <div
          className="sheet-head"
          role="row"
          aria-rowindex={1}
          style={{ gridTemplateColumns: printing ? template : `${template} 56px`, height: headHeight }}
        >
          <div role="columnheader" className="sheet-head-name">
            <span>{columns.stacked ? "Name and rule" : "Name"}</span>
          </div>
          {!columns.stacked && (
            <div role="columnheader" className="sheet-head-own">
              <span>Rule</span>
            </div>
          )}
          {columns.basis > 0 && (
            <div role="columnheader" className="sheet-head-own">
              <span>Basis</span>
            </div>
          )}
          {jobs.map((job) => (
            <div role="columnheader" key={job.id} className="sheet-head-job">
              <JobTagHead
                job={job}
                view={snapshot.jobs[job.id]}
                chosen={typeof chosen?.column === "object" && chosen.column.job === job.id}
                onOpen={() => props.onOpenJob(job.id)}
              />
            </div>
          ))}
          <div role="columnheader" className="sheet-head-add no-print">
            <button
              type="button"
              className="add-tag"
              onClick={props.onAddJob}
              aria-label="Lay a job alongside"
              title="Lay a job alongside"
            >
              <span aria-hidden="true">+</span>
            </button>
          </div>
        </div>
        <div className="sheet-body" role="rowgroup" style={{ height: Math.max(total, 40) }}>
          {drawn.map((n) => {
            const row = rows[n];
            if (!row) return null;
            return (
              <SheetRow
                key={row.id}
                row={row}
                index={n + 2}
                top={tops[n] ?? 0}
                height={(heights[n] ?? 0) - (draftAfter === row.id ? Math.max(120, editHeight + 20) : 0)}
                cells={cellHeights[n] ?? 0}
                width={width}
                columns={columns}
                template={template}
                jobs={jobs}
                views={snapshot.jobs}
                viewsBefore={snapshot.before?.jobs}
                oldRule={oldRuleOf(snapshot, row)}
                isNew={added.has(row.id)}
                inks={inksOf(row)}
                chosen={chosen?.row === row.id ? columnKey(chosen.column) : undefined}
                ranged={rangedRows.has(row.id) ? rangedColumns : undefined}
                layered={layered}
                moves={layered && row.own ? props.moves.get(movesOf(snapshot.text, row)) : undefined}
                movesOf={layered ? movesOf(snapshot.text, row) : row.id}
                onMoves={showMoves}
                lineAt={where}
                lit={props.lit === row.id}
                findings={shownFindings(row)}
                editor={editorFor(row)}
                onPick={pick}
                onOpen={open}
                onRepair={props.onRepair}
              />
            );
          })}
          {props.draft && (
            <div className="sheet-draft" style={{ transform: `translateY(${draftAt}px)` }}>
              <RuleEditor
                key={props.draft.text}
                label="New statement"
                first={props.draft.text}
                caret={props.draft.caret}
                onHeight={setEditHeight}
                onDrop={() => {
                  props.onDraft(undefined);
                  wantsFocus.current = true;
                  setEditHeight(0);
                }}
                onKeep={(typed) => {
                  props.onDraft(typed);
                  setEditHeight(0);
                  wantsFocus.current = true;
                }}
                onTry={(draft, caret) =>
                  props.onTry(
                    { start: draftPoint, end: draftPoint },
                    { start: draftPoint, end: draftPoint },
                    draft,
                    caret,
                  )
                }
              />
            </div>
          )}
        </div>
      </div>
    </div>
  );
}

/** A dial is not turned beyond the span that the book underneath gives. */
const beyondSpan = (finding: Finding): boolean => finding.code === "layer/span";

const none: readonly Finding[] = [];

/**
 * The rule as last accepted; in a layer what stands underneath is struck below the own line already, and rows
 * added to a chart leave its rule as it was.
 */
function oldRuleOf(snapshot: Snapshot, row: Row): string | undefined {
  const old = snapshot.before?.rules[row.id];
  return row.own && row.was !== undefined && (old === row.was.rule || old === row.rule) ? undefined : old;
}

const rowUnder = (target: EventTarget): string | undefined =>
  target instanceof Element ? target.closest<HTMLElement>("[data-row]")?.dataset["row"] : undefined;

function focusPlace(area: HTMLElement | null, place: Place): void {
  const cell = [...(area?.querySelectorAll<HTMLElement>("[data-place]") ?? [])].find(
    (one) => one.dataset["place"] === placeKey(place),
  );
  cell?.focus({ preventScroll: true });
}
