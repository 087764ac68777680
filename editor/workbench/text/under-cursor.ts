// Looks up the name under the resting cursor: every place where it stands is framed, the
// place where it is set more heavily, and what it is can be told below the text.
import type { CodeEditor } from "./monaco.ts";
import { KEEPS } from "./near-view.ts";
import { rangeOf } from "./places-in-model.ts";
import type { About, Places, TextServices } from "./services.ts";

export interface UnderCursor {
  readonly places?: Places;
  readonly about?: About;
}

/** The cursor rests this long, in milliseconds, before its name is looked up. */
const REST = 120;

/** More places than this are not framed at once. */
const MOST_FRAMED = 500;

/** `onRest` is told what stands under the resting cursor; both are absent where there is no name. */
export function attachUnderCursor(
  editor: CodeEditor,
  services: () => TextServices,
  onRest: (found: UnderCursor) => void,
): { dispose(): void } {
  const drawn = editor.createDecorationsCollection();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let gone = false;

  async function look(): Promise<void> {
    const model = editor.getModel();
    const position = editor.getPosition();
    if (model === null || position === null) return;
    const version = model.getVersionId();
    const offset = model.getOffsetAt(position);
    const nothing = () => undefined;
    const [places, about] = await Promise.all([
      services().places(offset).catch(nothing),
      services().about(offset).catch(nothing),
    ]);
    if (gone || model.getVersionId() !== version || !editor.getPosition()?.equals(position)) return;
    onRest({ places, about });
    drawn.set(
      (places?.all ?? []).slice(0, MOST_FRAMED).map((at) => ({
        range: rangeOf(model, at),
        options: {
          className: at.start === places?.set.start ? "place place-set" : "place",
          stickiness: KEEPS,
        },
      })),
    );
  }

  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(() => void look(), REST);
  };
  const listeners = [
    editor.onDidChangeCursorPosition(later),
    editor.onDidChangeModelContent(() => {
      drawn.clear();
      later();
    }),
  ];
  return {
    dispose() {
      gone = true;
      clearTimeout(timer);
      for (const listener of listeners) listener.dispose();
      drawn.clear();
    },
  };
}
