// A card beside the pointer: what stands there, and what was found there. It is built
// of text nodes only, since its words come out of somebody's book.
import type { Finding } from "../../../core/view.ts";
import { monaco, type CodeEditor } from "./monaco.ts";
import type { About, TextServices } from "./services.ts";

export interface HoverCard {
  dispose(): void;
}

/** The pointer rests this long, in milliseconds, before the card comes. */
const REST = 320;

export function attachHoverCard(
  editor: CodeEditor,
  services: () => TextServices,
  findingsAt: (offset: number) => readonly Finding[],
): HoverCard {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked: monaco.Position | null = null;
  const card = openCard(editor);

  function hide(): void {
    clearTimeout(timer);
    asked = null;
    if (card.isShown()) card.show(null);
  }

  async function show(position: monaco.Position): Promise<void> {
    const model = editor.getModel();
    if (model === null) return;
    const offset = model.getOffsetAt(position);
    const findings = findingsAt(offset);
    const about = await services()
      .about(offset)
      .catch(() => undefined);
    if (asked === null || !asked.equals(position) || editor.getModel() !== model) return;
    if (about === undefined && findings.length === 0) return hide();
    const word = about === undefined ? position : model.getPositionAt(about.at.start);
    card.show(word.lineNumber === position.lineNumber ? word : position, [
      ...findings.map(findingNode),
      ...(about === undefined ? [] : [aboutNode(about)]),
    ]);
  }

  const listeners = [
    editor.onMouseMove((event) => {
      const position =
        event.target.type === monaco.editor.MouseTargetType.CONTENT_TEXT ? event.target.position : null;
      if (position === null) {
        if (event.target.type !== monaco.editor.MouseTargetType.CONTENT_WIDGET) hide();
        return;
      }
      if (asked?.equals(position)) return;
      clearTimeout(timer);
      asked = position;
      timer = setTimeout(() => void show(position), card.isShown() ? 60 : REST);
    }),
    editor.onMouseLeave(hide),
    editor.onKeyDown(hide),
    editor.onDidScrollChange(hide),
    editor.onDidChangeModelContent(hide),
  ];
  return {
    dispose() {
      hide();
      for (const listener of listeners) listener.dispose();
      card.remove();
    },
  };
}

interface Card {
  isShown(): boolean;
  /** `contents` replace those of before; null takes the card away. */
  show(at: monaco.Position | null, contents?: readonly Node[]): void;
  remove(): void;
}

/** The card as a widget of the editor, hidden at first. */
function openCard(editor: CodeEditor): Card {
  const node = document.createElement("div");
  node.className = "hover-card";
  let shownAt: monaco.Position | null = null;
  const { ABOVE, BELOW } = monaco.editor.ContentWidgetPositionPreference;
  const widget: monaco.editor.IContentWidget = {
    allowEditorOverflow: true,
    getId: () => "bevel.hover-card",
    getDomNode: () => node,
    getPosition: () => (shownAt === null ? null : { position: shownAt, preference: [ABOVE, BELOW] }),
  };
  editor.addContentWidget(widget);
  return {
    isShown: () => shownAt !== null,
    show(at, contents) {
      if (contents !== undefined) node.replaceChildren(...contents);
      shownAt = at;
      editor.layoutContentWidget(widget);
    },
    remove: () => editor.removeContentWidget(widget),
  };
}

function findingNode(finding: Finding): HTMLElement {
  return element("div", `finding ${finding.weight}`, [
    element("p", "", [finding.says]),
    ...(finding.witness === undefined
      ? []
      : [element("p", "hover-witness", [`For example: ${finding.witness}`])]),
    ...finding.also.map((also) => element("p", "hover-also", [also.says])),
    ...(finding.repairs[0] === undefined
      ? []
      : [element("p", "hover-repair", [element("kbd", "", ["Alt+Enter"]), ` ${finding.repairs[0].says}`])]),
  ]);
}

const aboutNode = (about: About): HTMLElement =>
  element("div", "hover-about", [
    element("strong", "", [about.name]),
    ...about.lines.map((line) => element("p", "", [line])),
  ]);

function element(tag: string, className: string, children: readonly (Node | string)[]): HTMLElement {
  const made = document.createElement(tag);
  if (className !== "") made.className = className;
  made.append(...children);
  return made;
}
