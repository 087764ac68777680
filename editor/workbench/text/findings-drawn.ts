// Draws findings in the text: hatching under the words, and a mark in the margin whose
// shape says how grave it is.
import type { Finding, Severity } from "../../../core/view.ts";
import { monaco, type CodeEditor, type Decoration, type TextModel } from "./monaco.ts";
import { GRAVITY } from "./shifted-spans.ts";
import { attachNearView, KEEPS, type Lines } from "./near-view.ts";
import { drawableRange } from "./places-in-model.ts";

export interface FindingsDrawn {
  /** Findings of the text as it stands in the editor now. */
  set(findings: readonly Finding[]): void;
  dispose(): void;
}

/** More than this many are not drawn at once: a text pasted from elsewhere may be wrong in every line. */
const MOST_DRAWN = 600;

export function attachFindings(editor: CodeEditor): FindingsDrawn {
  let findings: readonly Finding[] = [];
  const view = attachNearView(editor, (model, lines) => decorationsOf(model, lines, findings));
  return {
    set(next) {
      findings = next;
      view.renew();
    },
    dispose: () => view.dispose(),
  };
}

function decorationsOf(model: TextModel, lines: Lines, findings: readonly Finding[]): Decoration[] {
  const start = model.getOffsetAt({ lineNumber: lines.from, column: 1 });
  const end = model.getOffsetAt({ lineNumber: lines.to, column: model.getLineMaxColumn(lines.to) });
  const near = findings.filter(({ at }) => at.end >= start && at.start <= end).slice(0, MOST_DRAWN);
  const gravest = new Map<number, Severity>();
  const drawn = near.map((finding): Decoration => {
    const range = drawableRange(model, finding.at);
    const marked = gravest.get(range.startLineNumber);
    if (marked === undefined || GRAVITY[finding.weight] < GRAVITY[marked])
      gravest.set(range.startLineNumber, finding.weight);
    return { range, options: UNDER[finding.weight] };
  });
  // A line has one mark, that of its gravest finding.
  for (const [line, weight] of gravest)
    drawn.push({ range: new monaco.Range(line, 1, line, 1), options: MARGIN[weight] });
  return drawn;
}

const under = (weight: Severity): monaco.editor.IModelDecorationOptions => ({
  className: `found found-${weight}`,
  stickiness: KEEPS,
  zIndex: 5,
});
const margin = (weight: Severity): monaco.editor.IModelDecorationOptions => ({
  linesDecorationsClassName: `found-mark found-mark-${weight}`,
  stickiness: KEEPS,
});

const UNDER: Record<Severity, monaco.editor.IModelDecorationOptions> = {
  error: under("error"),
  warning: under("warning"),
  note: under("note"),
};
const MARGIN: Record<Severity, monaco.editor.IModelDecorationOptions> = {
  error: margin("error"),
  warning: margin("warning"),
  note: margin("note"),
};
