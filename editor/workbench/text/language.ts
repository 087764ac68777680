// The language as the editor library knows it: an id, how lines are indented, what
// folds, where completions come from, and the drawing-office theme. Colouring is not
// here: it is drawn from the engine's marks (see colouring.ts).
import { monaco, type TextModel } from "./monaco.ts";
import type { Offer, TextServices } from "./services.ts";
import { partFolds } from "./statements.ts";

export const LANGUAGE = "bevel";
export const THEME = "drafting-film";

const servicesOf = new WeakMap<TextModel, () => TextServices>();

/** Completions in this model are asked of these services. */
export function giveServices(model: TextModel, services: () => TextServices): void {
  servicesOf.set(model, services);
}

let registered = false;

/** Makes the language and the theme known; more than once is the same as once. */
export function registerLanguage(): void {
  if (registered) return;
  registered = true;
  const { languages, editor } = monaco;
  languages.register({ id: LANGUAGE });
  languages.setLanguageConfiguration(LANGUAGE, {
    comments: { lineComment: "--" },
    // Hyphens belong to names here: `bevel-width` is one word.
    wordPattern: /[\p{L}][\p{L}\p{N}]*(?:-[\p{L}\p{N}]+)*|\d+(?:[./]\d+)?/u,
    // No pair of brackets is coloured; they are ink like the rest.
    brackets: [],
    autoClosingPairs: [
      { open: '"', close: '"' },
      { open: "(", close: ")" },
      { open: "{", close: "}" },
    ],
    surroundingPairs: [
      { open: '"', close: '"' },
      { open: "(", close: ")" },
    ],
    onEnterRules: [
      // Clauses stand four in; a heading or a note to oneself has none.
      {
        beforeText: /^(?!part\b|promise\b|picture\b|stop\b|caution\b)[a-z]+ .+$/,
        afterText: /^$/,
        action: { indentAction: languages.IndentAction.None, appendText: "    " },
      },
      // Enter on an empty clause line goes back to the left edge.
      {
        beforeText: /^\s+$/,
        afterText: /^$/,
        action: { indentAction: languages.IndentAction.None, removeText: 4 },
      },
    ],
  });
  languages.registerFoldingRangeProvider(LANGUAGE, {
    provideFoldingRanges: (model) => partFolds((line) => model.getLineContent(line), model.getLineCount()),
  });
  languages.registerCompletionItemProvider(LANGUAGE, { provideCompletionItems: complete });
  editor.defineTheme(THEME, theme());
}

async function complete(
  model: TextModel,
  position: monaco.Position,
): Promise<monaco.languages.CompletionList> {
  const services = servicesOf.get(model)?.();
  if (services === undefined) return { suggestions: [] };
  const offered = await services.offers(model.getOffsetAt(position));
  const range = monaco.Range.fromPositions(
    model.getPositionAt(offered.at.start),
    model.getPositionAt(offered.at.end),
  );
  return {
    suggestions: offered.offers.map((offer, order) => ({
      label: { label: offer.label, description: saidOf(offer) },
      insertText: offer.insert,
      filterText: offer.label,
      // The engine's order is kept among those that fit equally well.
      sortText: String(order).padStart(5, "0"),
      kind: monaco.languages.CompletionItemKind.Text,
      range,
    })),
  };
}

function saidOf(offer: Offer): string {
  return offer.detail === "" ? KIND_OF_OFFER[offer.as] : offer.detail;
}

const KIND_OF_OFFER: Record<Offer["as"], string> = {
  value: "a value of the book",
  kind: "a kind",
  kindword: "a word of a kind",
  unit: "a unit",
  function: "a function",
  word: "",
  statement: "a statement",
};

/** Ink on film. The colours repeat those of the look, because the library takes no custom properties. */
function theme(): monaco.editor.IStandaloneThemeData {
  const ink = "#1b2830",
    soft = "#4d5a61",
    raised = "#fbfaf6",
    sunk = "#e9e6db",
    line = "#b9b7aa",
    accent = "#9c3a1f",
    wash = "#f3dfd6";
  return {
    base: "vs",
    inherit: false,
    rules: [{ token: "", foreground: ink.slice(1) }],
    colors: {
      "editor.background": raised,
      "editor.foreground": ink,
      "editorCursor.foreground": accent,
      "editor.selectionBackground": "#e7c9bc",
      "editor.inactiveSelectionBackground": sunk,
      "editor.lineHighlightBackground": "#00000000",
      "editor.lineHighlightBorder": "#00000000",
      "editorLineNumber.foreground": soft,
      "editorLineNumber.activeForeground": ink,
      "editorGutter.background": raised,
      "editor.foldBackground": "#00000000",
      "editorWidget.background": raised,
      "editorWidget.foreground": ink,
      "editorWidget.border": ink,
      "widget.shadow": "#00000000",
      "editorSuggestWidget.background": raised,
      "editorSuggestWidget.border": ink,
      "editorSuggestWidget.foreground": ink,
      "editorSuggestWidget.highlightForeground": accent,
      "editorSuggestWidget.focusHighlightForeground": accent,
      "editorSuggestWidget.selectedBackground": wash,
      "editorSuggestWidget.selectedForeground": ink,
      "list.hoverBackground": sunk,
      focusBorder: accent,
      "scrollbar.shadow": "#00000000",
      "scrollbarSlider.background": `${line}99`,
      "scrollbarSlider.hoverBackground": "#6f766f99",
      "scrollbarSlider.activeBackground": "#6f766fcc",
    },
  };
}
