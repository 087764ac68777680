// Draws the engine's marks on what is in view. Only the statements around the view are
// asked for, so a book of 50,000 lines costs no more than a short one. The newest text
// wins: an answer about an older one is thrown away.
import { monaco, type CodeEditor, type Decoration } from "./monaco.ts";
import { KEEPS, linesInView } from "./near-view.ts";
import type { Mark, MarkAs, TextServices } from "./services.ts";
import { wholeStatements } from "./statements.ts";

/** Lines coloured ahead of the view on each side, so that slow scrolling never meets bare text. */
const AHEAD = 80;

export interface Colouring {
  /** Asks for the marks of what is in view now. */
  refresh(): void;
  dispose(): void;
}

export function attachColouring(editor: CodeEditor, services: () => TextServices): Colouring {
  const drawn = editor.createDecorationsCollection();
  let coloured = { from: 1, to: 0 };
  let asking = false,
    again = false,
    gone = false;

  async function refresh(): Promise<void> {
    if (asking) {
      again = true;
      return;
    }
    asking = true;
    do {
      again = false;
      await colourView().catch(() => undefined);
    } while (again && !gone);
    asking = false;
  }

  async function colourView(): Promise<void> {
    const model = editor.getModel();
    const view = linesInView(editor);
    if (model === null || view === undefined) return;
    const count = model.getLineCount();
    const lines = wholeStatements(
      (line) => model.getLineContent(line),
      count,
      view.from - AHEAD,
      view.to + AHEAD,
    );
    const range = new monaco.Range(lines.from, 1, lines.to, model.getLineMaxColumn(lines.to));
    const version = model.getVersionId();
    const marks = await services().colour(model.getValueInRange(range));
    if (gone || editor.getModel() !== model) return;
    if (model.getVersionId() !== version) {
      again = true;
      return;
    }
    drawn.set(decorationsOf(model, marks, model.getOffsetAt({ lineNumber: lines.from, column: 1 })));
    coloured = lines;
  }

  const onScroll = () => {
    const view = linesInView(editor);
    if (view === undefined) return;
    const count = editor.getModel()?.getLineCount() ?? 0;
    const enough =
      coloured.from <= Math.max(1, view.from - AHEAD / 2) &&
      coloured.to >= Math.min(count, view.to + AHEAD / 2);
    if (!enough) void refresh();
  };

  const listeners = [
    editor.onDidChangeModelContent(() => void refresh()),
    editor.onDidScrollChange(onScroll),
    editor.onDidLayoutChange(onScroll),
    editor.onDidChangeHiddenAreas(onScroll),
  ];
  void refresh();
  return {
    refresh: () => void refresh(),
    dispose() {
      gone = true;
      for (const listener of listeners) listener.dispose();
      drawn.clear();
    },
  };
}

function decorationsOf(model: monaco.editor.ITextModel, marks: readonly Mark[], from: number): Decoration[] {
  const decorations: Decoration[] = [];
  for (const mark of marks) {
    const start = model.getPositionAt(from + mark.at.start);
    const end = model.getPositionAt(from + mark.at.end);
    const range = monaco.Range.fromPositions(start, end);
    // The word that begins a statement stands out from the small words within rules.
    const leads = mark.as === "word" && start.column === 1;
    decorations.push({ range, options: leads ? LEAD : OPTIONS[mark.as] });
    // A part's heading is a batten across the page.
    if (leads && model.getLineContent(start.lineNumber).startsWith("part "))
      decorations.push({ range, options: BATTEN });
  }
  return decorations;
}

const drawnAs = (as: MarkAs | "lead"): monaco.editor.IModelDecorationOptions => ({
  inlineClassName: `ink-${as}`,
  stickiness: monaco.editor.TrackedRangeStickiness.AlwaysGrowsWhenTypingAtEdges,
});

const OPTIONS: Record<MarkAs, monaco.editor.IModelDecorationOptions> = {
  word: drawnAs("word"),
  name: drawnAs("name"),
  set: drawnAs("set"),
  number: drawnAs("number"),
  unit: drawnAs("unit"),
  text: drawnAs("text"),
  insert: drawnAs("insert"),
  comment: drawnAs("comment"),
  kindword: drawnAs("kindword"),
  operator: drawnAs("operator"),
  // The bar of a chart is also drawn through the whole height of its line.
  bar: { ...drawnAs("bar"), className: "drawn-bar", stickiness: KEEPS },
};

const LEAD = drawnAs("lead");

const BATTEN: monaco.editor.IModelDecorationOptions = {
  isWholeLine: true,
  className: "drawn-batten",
  marginClassName: "drawn-batten-margin",
};
