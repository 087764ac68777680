// Draws findings in the text: hatching under the words, and a mark in the margin whose
// shape says how grave it is. Only findings near the view are drawn.
import type { Finding, Weight } from "../../../core/view.ts";
import { linesInView } from "./colouring.ts";
import { monaco, type CodeEditor, type Decoration } from "./monaco.ts";
import { drawableRange } from "./places-in-model.ts";

export interface FindingsDrawn {
  /** Findings of the text as it stands in the editor now. */
  set(findings: readonly Finding[]): void;
  dispose(): void;
}

/** More than this many are not drawn at once: a text pasted from elsewhere may be wrong in every line. */
const MOST_DRAWN = 600;

export function attachFindings(editor: CodeEditor): FindingsDrawn {
  const drawn = editor.createDecorationsCollection();
  let findings: readonly Finding[] = [];
  let version = -1;
  let near = { from: 1, to: 0 };

  function draw(): void {
    const model = editor.getModel();
    const view = linesInView(editor);
    // After an edit the drawn marks move with the text until new findings arrive.
    if (model === null || view === undefined || model.getVersionId() !== version) return;
    const spare = view.to - view.from + 40;
    near = { from: view.from - spare, to: view.to + spare };
    const decorations: Decoration[] = [];
    const start = model.getOffsetAt({ lineNumber: Math.max(1, near.from), column: 1 });
    const last = Math.min(model.getLineCount(), near.to);
    const end = model.getOffsetAt({ lineNumber: last, column: model.getLineMaxColumn(last) });
    for (const finding of findings) {
      if (finding.at.end < start || finding.at.start > end) continue;
      if (decorations.length > MOST_DRAWN) break;
      const range = drawableRange(model, finding.at);
      decorations.push({ range, options: UNDER[finding.weight] });
      decorations.push({ range: new monaco.Range(range.startLineNumber, 1, range.startLineNumber, 1), options: MARGIN[finding.weight] });
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
      findings = next;
      version = editor.getModel()?.getVersionId() ?? -1;
      draw();
    },
    dispose() {
      for (const listener of listeners) listener.dispose();
      drawn.clear();
    },
  };
}

const stickiness = monaco.editor.TrackedRangeStickiness.NeverGrowsWhenTypingAtEdges;
const under = (weight: Weight): monaco.editor.IModelDecorationOptions => ({ className: `found found-${weight}`, stickiness, zIndex: 5 });
const margin = (weight: Weight): monaco.editor.IModelDecorationOptions => ({ linesDecorationsClassName: `found-mark found-mark-${weight}`, stickiness });

const UNDER: Record<Weight, monaco.editor.IModelDecorationOptions> = { error: under("error"), warning: under("warning"), note: under("note") };
const MARGIN: Record<Weight, monaco.editor.IModelDecorationOptions> = { error: margin("error"), warning: margin("warning"), note: margin("note") };
