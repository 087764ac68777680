// The editor drawn in place of the cell that is being edited: an answer, a rule, a name or a basis.
import type { Finding, Row } from "../../../core/view.ts";
import type { Place } from "../store/document.ts";
import { AnswerEditor } from "./answer-editor.tsx";
import type { After } from "./answer-editor.tsx";
import { placeFrom } from "./cell-steps.ts";
import { dialSpan } from "./layer-rows.ts";
import { LineEditor } from "./line-editor.tsx";
import { RuleEditor } from "./rule-editor.tsx";
import type { SheetIndex } from "./sheet-index.ts";
import type { SheetProps } from "./sheet-props.ts";
import { basisWords, editedSpan } from "./statement-text.ts";

export interface CellEditorProps {
  readonly sheet: SheetProps;
  readonly index: SheetIndex;
  readonly row: Row;
  readonly column: Place["column"];
  /** The text that it begins with. */
  readonly first: string;
  readonly onHeight: (height: number) => void;
  /** Closes the editor; the sheet takes the focus unless `refocus` is false. */
  readonly onClose: (refocus?: boolean) => void;
  readonly onGo: (place: Place, extend: boolean) => void;
}

export function CellEditor(props: CellEditorProps) {
  const { row, column } = props;
  if (typeof column === "object") return <AnswerOf {...props} job={column.job} />;
  if (column === "rule" || (column === "name" && row.keyword === "part"))
    return row.own ? <RuleOf {...props} /> : <AmendmentOf {...props} />;
  return <LineOf {...props} />;
}

function AnswerOf(props: CellEditorProps & { readonly job: string }) {
  const { sheet, index, row, job } = props;
  const ask = row.name ?? "";
  const keep = (text: string, after: After): void => {
    props.onClose(after !== "stay");
    sheet.actions.setAnswers([{ job, ask, text }]);
    const next = sheet.rows.slice(sheet.rows.indexOf(row) + 1).find((one) => one.keyword === "ask");
    const column = { job };
    if (after === "down" && next) props.onGo({ row: next.id, column }, false);
    if (after === "right")
      props.onGo(placeFrom({ row: row.id, column }, 0, 1, index.ids, index.order), false);
  };
  return (
    <AnswerEditor
      label={`${ask} of ${sheet.jobs.find((one) => one.id === job)?.name ?? "this job"}`}
      ask={sheet.snapshot.asks.find((one) => one.name === ask)}
      first={props.first}
      onKeep={keep}
      onDrop={() => props.onClose()}
    />
  );
}

function RuleOf(props: CellEditorProps) {
  const { sheet, row } = props;
  const at = editedSpan(sheet.snapshot.text, row);
  return (
    <RuleEditor
      label={`Rule of ${row.name ?? row.keyword}`}
      first={props.first}
      onHeight={props.onHeight}
      onTry={(draft, caret) => sheet.actions.tryDraft(at, row.at, draft, caret)}
      onDrop={() => props.onClose()}
      onKeep={(draft) => {
        props.onClose();
        if (draft !== props.first) sheet.actions.setRule(row.id, draft);
      }}
    />
  );
}

/** The rule of a row underneath: what is kept becomes an own statement. */
function AmendmentOf(props: CellEditorProps) {
  const { sheet, row } = props;
  const span = dialSpan(row);
  return (
    <RuleEditor
      label={`Rule of ${row.name ?? row.keyword}`}
      first={props.first}
      onHeight={props.onHeight}
      says={`Amends it here${span === undefined ? "" : `, ${span}`}. ${row.layer} keeps its own.`}
      onTry={(draft, caret) => sheet.actions.tryAmend(row, draft, caret)}
      refuses={beyondSpan}
      onDrop={() => props.onClose()}
      onKeep={(draft) => {
        props.onClose();
        if (draft.trim() !== "" && draft !== props.first) sheet.actions.amend(row.id, draft);
      }}
    />
  );
}

function LineOf(props: CellEditorProps) {
  const { row, first } = props;
  const { setBasis, setName } = props.sheet.actions;
  const basis = props.column === "basis";
  return (
    <LineEditor
      label={basis ? `Basis of ${row.name ?? row.keyword}` : `Name of this ${row.keyword}`}
      first={first}
      words={basis ? basisWords : []}
      onDrop={() => props.onClose()}
      onKeep={(typed) => {
        props.onClose();
        if (typed === first) return;
        if (basis) setBasis(row.id, typed);
        else setName(row.id, typed);
      }}
    />
  );
}

/** A dial is not turned beyond the span that the book underneath gives. */
const beyondSpan = (finding: Finding): boolean => finding.code === "layer/span";
