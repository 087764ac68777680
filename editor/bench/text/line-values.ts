// Writes at the end of a line what the line gives for the chosen job, like a dimension
// beside a drawn edge. The values are no part of the text and cannot be typed into.
import { linesInView } from "./colouring.ts";
import { monaco, type CodeEditor, type Decoration } from "./monaco.ts";

export interface LineValue {
  /** Counted from 1. */
  readonly line: number;
  readonly text: string;
}

export interface LineValues {
  /** Values of the text as it stands in the editor now. */
  set(values: readonly LineValue[]): void;
  dispose(): void;
}

/** A longer value is cut short here; the sheet shows all of it. */
const LONGEST = 48;

// The gap before a value is made of spaces, not of a margin: the editor measures to where
// the value's own text begins. The style sheet draws the dimension's ends into them.
const GAP = "\u2003\u2003\u2002";
const END = "\u2002";

export function attachLineValues(editor: CodeEditor): LineValues {
  const drawn = editor.createDecorationsCollection();
  let values: readonly LineValue[] = [];
  let version = -1;
  let near = { from: 1, to: 0 };

  function draw(): void {
    const model = editor.getModel();
    const view = linesInView(editor);
    if (model === null || view === undefined || model.getVersionId() !== version) return;
    const spare = view.to - view.from + 40;
    near = { from: view.from - spare, to: view.to + spare };
    const decorations: Decoration[] = [];
    for (const { line, text } of values) {
      if (line < near.from || line > near.to || line > model.getLineCount() || text === "") continue;
      const end = model.getLineMaxColumn(line);
      decorations.push({
        range: new monaco.Range(line, end, line, end),
        options: {
          showIfCollapsed: true,
          stickiness: monaco.editor.TrackedRangeStickiness.AlwaysGrowsWhenTypingAtEdges,
          after: { content: `${GAP}${short(text)}${END}`, inlineClassName: "line-value", cursorStops: monaco.editor.InjectedTextCursorStops.None },
        },
      });
    }
    drawn.set(decorations);
  }

  const listeners = [
    editor.onDidScrollChange(() => {
      const view = linesInView(editor);
      if (view !== undefined && (view.from < near.from + 10 || view.to > near.to - 10)) draw();
    }),
    editor.onDidLayoutChange(draw),
  ];
  return {
    set(next) {
      values = next;
      version = editor.getModel()?.getVersionId() ?? -1;
      draw();
    },
    dispose() {
      for (const listener of listeners) listener.dispose();
      drawn.clear();
    },
  };
}

const short = (text: string): string => {
  const line = text.replace(/\s+/g, " ");
  return line.length > LONGEST ? `${line.slice(0, LONGEST - 1)}…` : line;
};
