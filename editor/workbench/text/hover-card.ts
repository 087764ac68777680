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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function attachHoverCard(
  editor: CodeEditor,
  services: () => TextServices,
  findingsAt: (offset: number) => readonly Finding[],
): HoverCard {
  const node = document.createElement("div");
  node.className = "hover-card";
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shownAt: monaco.Position | null = null;
  let asked: monaco.Position | null = null;
  const widget: monaco.editor.IContentWidget = {
    allowEditorOverflow: true,
    getId: () => "bevel.hover-card",
    getDomNode: () => node,
    getPosition: () =>
      shownAt === null
        ? null
        : {
            position: shownAt,
            preference: [
              monaco.editor.ContentWidgetPositionPreference.ABOVE,
              monaco.editor.ContentWidgetPositionPreference.BELOW,
            ],
          },
  };
  editor.addContentWidget(widget);

  function hide(): void {
    clearTimeout(timer);
    asked = null;
    if (shownAt === null) return;
    shownAt = null;
    editor.layoutContentWidget(widget);
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
    node.replaceChildren(...findings.map(findingNode), ...(about === undefined ? [] : [aboutNode(about)]));
    const word = about === undefined ? position : model.getPositionAt(about.at.start);
    shownAt = word.lineNumber === position.lineNumber ? word : position;
    editor.layoutContentWidget(widget);
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
      timer = setTimeout(() => void show(position), shownAt === null ? REST : 60);
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
      editor.removeContentWidget(widget);
    },
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
