// One editor for one book's text, without React: it takes the text from outside and
// hands out what is typed, and never lets the two chase each other.
import { applyEdits, type Span, type TextEdit } from "../../../core/span.ts";
import { openEcho } from "./own-edits.ts";
import { OPTIONS } from "./editor-options.ts";
import { giveServices, LANGUAGE, registerLanguage } from "./language.ts";
import { leastEdits } from "./least-edits.ts";
import { monaco, type CodeEditor } from "./monaco.ts";
import { rangeOf } from "./places-in-model.ts";
import type { TextServices } from "./services.ts";

export interface BookEditor {
  readonly editor: CodeEditor;
  /** The text as it stands now. */
  text(): string;
  /**
   * Takes over a text from outside by the least edits. A text that we handed out ourselves changes nothing.
   */
  setText(text: string): void;
  /** The next text comes from elsewhere, whatever it is: call before asking for an undo. */
  awaitOther(): void;
  /** Edits by a command of this face; they go out through `onEdit` like typed ones. */
  edit(edits: readonly TextEdit[]): void;
  /** Puts the cursor there, with the place in view and the focus in the text. */
  goTo(at: Span): void;
  /** Lights a place up, and brings it into view unless the typist is at work. */
  choose(at: Span | undefined): void;
  dispose(): void;
}

type Model = monaco.editor.ITextModel;

export interface BookEditorCalls {
  /** What was typed. `edits` are in the offsets of the text before; absent when only the whole is known. */
  onEdit(text: string, edits?: readonly TextEdit[]): void;
  /** Any change of the text, from here or from outside, before anything else is told. */
  onChange(edits: readonly TextEdit[]): void;
  /** The cursor went somewhere by hand. */
  onCursor(offset: number, byHand: boolean): void;
}

export function openBookEditor(
  host: HTMLElement,
  text: string,
  services: () => TextServices,
  calls: BookEditorCalls,
): BookEditor {
  registerLanguage();
  const model = monaco.editor.createModel(text, LANGUAGE);
  model.setEOL(monaco.editor.EndOfLineSequence.LF);
  giveServices(model, services);
  const editor = monaco.editor.create(host, { ...OPTIONS, model, ariaLabel: LABEL });
  const echo = openEcho();
  let current = text;
  let fromOutside = false;

  editor.onDidChangeModelContent((event) => {
    const changed = changedText(current, event, model);
    current = changed.text;
    calls.onChange(changed.edits);
    if (fromOutside) return;
    echo.gave(current);
    calls.onEdit(current, changed.exact ? changed.edits : undefined);
  });
  editor.onDidChangeCursorPosition((event) =>
    calls.onCursor(model.getOffsetAt(event.position), !fromOutside && isByHand(event)),
  );
  leaveByTab(editor);
  void document.fonts.ready.then(() => monaco.editor.remeasureFonts());

  return {
    editor,
    text: () => current,
    setText(next) {
      // Asked in any case: a text that has come back settles all that were handed out before it,
      // so that an undo to one of those is not taken for an echo.
      const ours = echo.isEcho(next);
      if (ours || next === current) return;
      fromOutside = true;
      keepView(editor, () =>
        model.applyEdits(
          leastEdits(current, next).map(({ at, text: put }) => ({ range: rangeOf(model, at), text: put })),
        ),
      );
      fromOutside = false;
      if (current !== next) {
        // Only foreign line ends can bring us here; the editor keeps its own.
        current = model.getValue();
      }
    },
    awaitOther: () => echo.forget(),
    ...actionsOn(editor, model),
    dispose() {
      editor.dispose();
      model.dispose();
    },
  };
}

/** What a command or another pane does in the editor. */
function actionsOn(editor: CodeEditor, model: Model): Pick<BookEditor, "edit" | "goTo" | "choose"> {
  const chosen = editor.createDecorationsCollection();
  return {
    edit(edits) {
      editor.pushUndoStop();
      editor.executeEdits(
        "bevel",
        edits.map(({ at, text: put }) => ({ range: rangeOf(model, at), text: put, forceMoveMarkers: true })),
      );
    },
    goTo(at) {
      editor.setSelection(rangeOf(model, { start: at.start, end: at.start }), "bevel");
      editor.revealRangeInCenterIfOutsideViewport(rangeOf(model, at));
      editor.focus();
    },
    choose(at) {
      if (at === undefined) {
        chosen.clear();
        return;
      }
      const range = rangeOf(model, at);
      chosen.set([
        {
          range,
          options: { className: "chosen", isWholeLine: true, marginClassName: "chosen-margin", zIndex: -1 },
        },
      ]);
      if (editor.hasTextFocus()) return;
      const cursor = editor.getPosition();
      if (cursor === null || !range.containsPosition(cursor))
        editor.setPosition(range.getStartPosition(), "outside");
      editor.revealRangeInCenterIfOutsideViewport(range);
    },
  };
}

/** The text after a change; `exact` where the edits alone lead to it from the one before. */
function changedText(
  before: string,
  event: monaco.editor.IModelContentChangedEvent,
  model: Model,
): { readonly text: string; readonly edits: readonly TextEdit[]; readonly exact: boolean } {
  const edits = event.changes.map((change) => ({
    at: { start: change.rangeOffset, end: change.rangeOffset + change.rangeLength },
    text: change.text,
  }));
  const text = event.isFlush ? model.getValue() : applyEdits(before, edits);
  if (event.isFlush) return { text, edits, exact: false };
  // A paste with foreign line ends is stored otherwise than it was announced.
  return text.length === model.getValueLength()
    ? { text, edits, exact: true }
    : { text: model.getValue(), edits, exact: false };
}

const isByHand = ({ reason, source }: monaco.editor.ICursorPositionChangedEvent): boolean =>
  (reason === monaco.editor.CursorChangeReason.Explicit ||
    reason === monaco.editor.CursorChangeReason.NotSet) &&
  source !== "outside";

const LABEL = "The text of the book. Escape and then Tab leaves it.";

/** Changes the text while the first line in view stays where it is on the screen. */
function keepView(editor: CodeEditor, change: () => void): void {
  const first = editor.getVisibleRanges()[0];
  const model = editor.getModel();
  if (first === undefined || model === null) {
    change();
    return;
  }
  const below = editor.getScrollTop() - editor.getTopForLineNumber(first.startLineNumber);
  const [pin] = model.deltaDecorations(
    [],
    [
      {
        range: new monaco.Range(first.startLineNumber, 1, first.startLineNumber, 1),
        options: { stickiness: 1 },
      },
    ],
  );
  change();
  const moved = pin === undefined ? null : model.getDecorationRange(pin);
  if (moved !== null && moved.startLineNumber !== first.startLineNumber)
    editor.setScrollTop(editor.getTopForLineNumber(moved.startLineNumber) + below);
  if (pin !== undefined) model.deltaDecorations([pin], []);
}

/**
 * Tab indents; after Escape it goes on to the next control, so that the keyboard is never caught in the text.
 */
function leaveByTab(editor: CodeEditor): void {
  let leaving = false;
  const leave = (yes: boolean) => {
    if (leaving === yes) return;
    leaving = yes;
    editor.updateOptions({ tabFocusMode: yes });
  };
  editor.onKeyDown((event) => {
    if (event.keyCode === monaco.KeyCode.Escape) leave(true);
    else if (event.keyCode !== monaco.KeyCode.Tab && event.keyCode !== monaco.KeyCode.Shift) leave(false);
  });
  editor.onDidBlurEditorText(() => leave(false));
}
