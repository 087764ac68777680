// The text face of a book: its source as a page of a drawing office, in the editor
// library. It takes the text and what is known of it, and hands out what is typed.
// Load this file lazily: the technician's page must not carry the editor.
import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { Span, TextEdit } from "../../../core/span.ts";
import type { Finding } from "../../../core/view.ts";
import { type BookEditor, openBookEditor } from "./book-editor.ts";
import { attachColouring } from "./colouring.ts";
import { bindCommands, type CommandId } from "./text-commands.ts";
import { FindLine } from "./find-line.tsx";
import { attachFindings, type FindingsDrawn } from "./findings-drawn.ts";
import { attachHoverCard } from "./hover-card.ts";
import { attachLineValues, type LineValue, type LineValues } from "./draw-line-values.ts";
import { findingsAt, moveFindings, neighbour } from "./shifted-spans.ts";
import { NoteLine } from "./note-line.tsx";
import { RenameLine } from "./rename-line.tsx";
import type { Places, TextServices } from "./services.ts";
import { attachUnderCursor, type UnderCursor } from "./under-cursor.ts";
import "./text-view.css";

export interface TextViewProps {
  /** The book, with line ends of one character. */
  readonly text: string;
  /**
   * What was typed or repaired here. `edits` are in offsets of the text before; absent when only the whole is
   * known.
   */
  onEdit(text: string, edits?: readonly TextEdit[]): void;
  readonly findings: readonly Finding[];
  readonly services: TextServices;
  /** What to light up: the statement chosen in another face, or the place that a trace names. */
  readonly chosen?: Span;
  /** The cursor went to another place by hand. */
  onChoose(offset: number): void;
  /** What lines give for the chosen job; lines counted from 1. */
  readonly lineValues: readonly LineValue[];
  /**
   * The text that `findings` and `lineValues` were read from. While it is not the text in the editor, both
   * wait.
   */
  readonly readFrom?: string;
  readonly readOnly?: boolean;
  onUndo(): void;
  onRedo(): void;
  /** Where the reader was when the face was left; the next one begins there. */
  readonly position?: { current: EditorPosition | undefined };
  /** Counts up when the text shall take the focus. */
  readonly focusCall?: number;
}

/** Cursor and scrolling, as the editor gives them; nobody else reads it. */
export type EditorPosition = NonNullable<ReturnType<BookEditor["editor"]["saveViewState"]>>;

interface Opened {
  readonly book: BookEditor;
  readonly findings: FindingsDrawn;
  readonly values: LineValues;
}

/** What the editor shows and where its cursor is, as it tells it. */
interface EditorState {
  readonly opened: Opened | undefined;
  readonly cursor: number;
  /** The findings, moved along with what was typed since they were found. */
  readonly known: readonly Finding[];
  readonly under: UnderCursor;
  /** Rises with every change of the text. */
  readonly version: number;
}

interface Calls {
  readonly latest: RefObject<TextViewProps>;
  readonly run: RefObject<(id: CommandId) => void>;
}

/** Opens the editor in `host` for as long as the view is there. */
function useEditor(host: RefObject<HTMLDivElement | null>, { latest, run }: Calls) {
  const [opened, setOpened] = useState<Opened>();
  const [cursor, setCursor] = useState(0);
  const [known, setKnown] = useState<readonly Finding[]>([]);
  const knownNow = useRef(known);
  knownNow.current = known;
  const [under, setUnder] = useState<UnderCursor>({});
  const [version, setVersion] = useState(0);
  /** Whether the cursor was moved by hand since its place was last handed out. */
  const movedByHand = useRef(false);
  useEffect(() => {
    if (host.current === null) return;
    const services = () => latest.current.services;
    const book = openBookEditor(host.current, latest.current.text, services, {
      onEdit: (next, edits) => latest.current.onEdit(next, edits),
      onChange(edits) {
        setKnown((old) => moveFindings(old, edits));
        setVersion((old) => old + 1);
      },
      onCursor(offset, byHand) {
        setCursor(offset);
        movedByHand.current ||= byHand;
      },
    });
    const { editor } = book;
    const findings = attachFindings(editor);
    const values = attachLineValues(editor);
    const attached = [
      attachColouring(editor, services),
      findings,
      values,
      attachUnderCursor(editor, services, setUnder),
      attachHoverCard(editor, services, (offset) =>
        knownNow.current.filter(({ at }) => at.start <= offset && offset <= at.end),
      ),
      bindCommands(editor, (id) => run.current(id)),
    ];
    keepMarginNarrow(editor);
    const before = latest.current.position?.current;
    if (before) editor.restoreViewState(before);
    setOpened({ book, findings, values });
    return () => {
      if (latest.current.position) latest.current.position.current = editor.saveViewState() ?? undefined;
      for (const one of attached) one.dispose();
      book.dispose();
      setOpened(undefined);
    };
  }, [host, latest, run]);
  const state: EditorState = { opened, cursor, known, under, version };
  return { state, setKnown, movedByHand };
}

/** On a narrow screen the margin beside the text is narrower. */
function keepMarginNarrow(editor: BookEditor["editor"]): void {
  const narrow = () =>
    editor.updateOptions(
      editor.getLayoutInfo().width < 640
        ? { lineNumbersMinChars: 3, lineDecorationsWidth: 24 }
        : { lineNumbersMinChars: 5, lineDecorationsWidth: 34 },
    );
  narrow();
  editor.onDidLayoutChange(narrow);
}

/** Brings what the props say into the editor, and tells where the cursor was put by hand. */
function useTextView(props: TextViewProps, host: RefObject<HTMLDivElement | null>, calls: Calls) {
  const { text, findings, chosen, lineValues, readFrom, readOnly = false, focusCall = 0 } = props;
  const { state, setKnown, movedByHand } = useEditor(host, calls);
  const { opened, cursor } = state;
  useLayoutEffect(() => opened?.book.setText(text), [opened, text]);
  const called = useRef(0);
  useEffect(() => {
    if (opened === undefined || focusCall === called.current) return;
    called.current = focusCall;
    opened.book.editor.focus();
  }, [opened, focusCall]);
  const isReadText = (): boolean =>
    opened !== undefined && (readFrom === undefined || readFrom === opened.book.text());
  // biome-ignore lint/correctness/useExhaustiveDependencies: also after a new text.
  useLayoutEffect(() => {
    if (opened === undefined || !isReadText()) return;
    setKnown(findings);
    opened.findings.set(findings);
    opened.values.set(lineValues);
  }, [opened, text, findings, lineValues, readFrom]);
  // A place in an older text is waited out: it would light up something else.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same place is no new choice.
  useEffect(() => {
    if (isReadText()) opened?.book.choose(chosen);
  }, [opened, readFrom, chosen?.start, chosen?.end]);
  // While typing runs ahead of the reading, nobody could tell which statement an offset is in.
  // biome-ignore lint/correctness/useExhaustiveDependencies: isReadText reads what is listed.
  useEffect(() => {
    if (!movedByHand.current || !isReadText()) return;
    movedByHand.current = false;
    calls.latest.current.onChoose(cursor);
  }, [opened, cursor, readFrom]);
  useEffect(() => opened?.book.editor.updateOptions({ readOnly, domReadOnly: readOnly }), [opened, readOnly]);
  return state;
}

/** What the line below the text asks for: something to look for, or a new name. */
type Asking = "nothing" | "find" | { readonly rename: Places; readonly at: number };

interface CommandParts {
  readonly state: EditorState;
  /** The findings at the cursor. */
  readonly here: readonly Finding[];
  readonly props: TextViewProps;
  readonly ask: (what: Asking) => void;
}

function runCommand(id: CommandId, { state, here, props, ask }: CommandParts): void {
  const { opened, known, cursor, under } = state;
  const { readOnly = false } = props;
  if (opened === undefined) return;
  const { book } = opened;
  switch (id) {
    case "repair": {
      const repair = here[0]?.repairs[0];
      if (repair !== undefined && !readOnly) book.edit(repair.edits);
      book.editor.focus();
      return;
    }
    case "next-finding":
    case "finding-before": {
      const next = neighbour(known, cursor, id === "next-finding" ? 1 : -1);
      if (next !== undefined) book.goTo(next.at);
      return;
    }
    case "where-set":
      if (under.places !== undefined) book.goTo(under.places.set);
      return;
    case "rename":
      if (under.places !== undefined && !readOnly) ask({ rename: under.places, at: cursor });
      return;
    case "find":
      ask("find");
      return;
    case "undo":
      book.awaitOther();
      props.onUndo();
      return;
    case "redo":
      book.awaitOther();
      props.onRedo();
      return;
  }
}

export function TextView(props: TextViewProps) {
  const host = useRef<HTMLDivElement>(null);
  const latest = useRef(props);
  latest.current = props;
  const run = useRef<(id: CommandId) => void>(() => undefined);
  const [asking, setAsking] = useState<Asking>("nothing");
  const state = useTextView(props, host, { latest, run });
  const { opened, cursor, known } = state;
  const model = opened?.book.editor.getModel();
  const position = model?.getPositionAt(cursor);
  const line = position === undefined || !model ? { start: 0, end: 0 } : lineSpan(model, position.lineNumber);
  const here = findingsAt(known, cursor, line);
  run.current = (id) => runCommand(id, { state, here, props, ask: setAsking });
  const close = () => {
    setAsking("nothing");
    opened?.book.editor.focus();
  };
  return (
    <div className="text-face">
      {asking === "find" && opened !== undefined && (
        <FindLine
          editor={opened.book.editor}
          startWith={selectedWords(opened.book)}
          textVersion={state.version}
          onClose={close}
        />
      )}
      <div className="text-page" ref={host} />
      {typeof asking === "object" ? (
        <RenameLine
          name={asking.rename.name}
          places={asking.rename.all.length}
          rename={(to) => props.services.rename(asking.at, to)}
          onRenamed={({ edits }) => {
            opened?.book.edit(edits);
            close();
          }}
          onClose={close}
        />
      ) : (
        <NoteLine
          line={position?.lineNumber ?? 1}
          finding={here[0]}
          more={Math.max(0, here.length - 1)}
          findings={known.length}
          under={state.under}
          readOnly={props.readOnly ?? false}
          run={(id) => run.current(id)}
        />
      )}
    </div>
  );
}

/** The words selected on one line, to look for; "" if none are. */
function selectedWords({ editor }: BookEditor): string {
  const selection = editor.getSelection();
  if (selection === null || selection.startLineNumber !== selection.endLineNumber) return "";
  return editor.getModel()?.getValueInRange(selection) ?? "";
}

function lineSpan(model: NonNullable<ReturnType<BookEditor["editor"]["getModel"]>>, line: number): Span {
  const start = model.getOffsetAt({ lineNumber: line, column: 1 });
  return { start, end: start + model.getLineLength(line) };
}
