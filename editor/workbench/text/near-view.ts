// Decorations of what is in view and a little around it, drawn again as the view moves,
// so that a long book costs no more than a short one.
import { monaco, type CodeEditor, type Decoration, type TextModel } from "./monaco.ts";

export interface Lines {
  readonly from: number;
  readonly to: number;
}

export interface NearView {
  /** What is to be drawn has changed, and belongs to the text as it stands in the editor now. */
  renew(): void;
  dispose(): void;
}

/** Lines drawn beyond the view on each side, besides as many again as the view holds. */
const SPARE = 40;

/**
 * `draw` gives the decorations of these lines, which lie within the text. After an edit the old ones move
 * with the text until `renew`.
 */
export function attachNearView(
  editor: CodeEditor,
  draw: (model: TextModel, lines: Lines) => Decoration[],
): NearView {
  const drawn = editor.createDecorationsCollection();
  let version = -1;
  let near: Lines = { from: 1, to: 0 };

  function redraw(): void {
    const model = editor.getModel();
    const view = linesInView(editor);
    if (model === null || view === undefined || model.getVersionId() !== version) return;
    const spare = view.to - view.from + SPARE;
    near = { from: Math.max(1, view.from - spare), to: Math.min(model.getLineCount(), view.to + spare) };
    drawn.set(draw(model, near));
  }

  const listeners = [
    editor.onDidScrollChange(() => {
      const view = linesInView(editor);
      const count = editor.getModel()?.getLineCount() ?? 0;
      const enough =
        view === undefined ||
        ((near.from === 1 || view.from >= near.from + SPARE / 4) &&
          (near.to === count || view.to <= near.to - SPARE / 4));
      if (!enough) redraw();
    }),
    editor.onDidLayoutChange(redraw),
  ];
  return {
    renew() {
      version = editor.getModel()?.getVersionId() ?? -1;
      redraw();
    },
    dispose() {
      for (const listener of listeners) listener.dispose();
      drawn.clear();
    },
  };
}

/** First and last line in view, folded ones between included. */
export function linesInView(editor: CodeEditor): Lines | undefined {
  const ranges = editor.getVisibleRanges();
  const first = ranges[0],
    last = ranges.at(-1);
  return first && last ? { from: first.startLineNumber, to: last.endLineNumber } : undefined;
}

/** Decorations that keep to their own text: typing at their edges does not stretch them. */
export const KEEPS = monaco.editor.TrackedRangeStickiness.NeverGrowsWhenTypingAtEdges;
