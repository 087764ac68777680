// Writes at the end of a line what the line gives for the chosen job, like a dimension
// beside a drawn edge. The values are no part of the text and cannot be typed into.
import { monaco, type CodeEditor, type Decoration, type TextModel } from "./monaco.ts";
import { attachNearView, type Lines } from "./near-view.ts";

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
const END = "\u2003";

export function attachLineValues(editor: CodeEditor): LineValues {
  let values: readonly LineValue[] = [];
  const view = attachNearView(editor, (model, lines) => decorationsOf(model, lines, values));
  return {
    set(next) {
      values = next;
      view.renew();
    },
    dispose: () => view.dispose(),
  };
}

function decorationsOf(model: TextModel, lines: Lines, values: readonly LineValue[]): Decoration[] {
  return values
    .filter(({ line, text }) => line >= lines.from && line <= lines.to && text !== "")
    .map(({ line, text }) => {
      const end = model.getLineMaxColumn(line);
      return {
        range: new monaco.Range(line, end, line, end),
        options: {
          showIfCollapsed: true,
          stickiness: monaco.editor.TrackedRangeStickiness.AlwaysGrowsWhenTypingAtEdges,
          after: {
            content: `${GAP}${short(text)}${END}`,
            inlineClassName: "line-value",
            cursorStops: monaco.editor.InjectedTextCursorStops.None,
          },
        },
      };
    });
}

const short = (text: string): string => {
  // Hard spaces, so that a value is not broken over two lines.
  const line = text.replace(/\s+/g, "\u00a0");
  return line.length > LONGEST ? `${line.slice(0, LONGEST - 1)}…` : line;
};
