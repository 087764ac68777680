// What can be done in the text face, each with its own words and keys. The keys are
// shown wherever the words are.
import { textKeys, type TextKey } from "./editor-keys.ts";
import { monaco, type CodeEditor } from "./monaco.ts";

export type CommandId = TextKey;

const { CtrlCmd, Alt, Shift } = monaco.KeyMod;
const key = monaco.KeyCode;

const codes: Readonly<Record<CommandId, readonly number[]>> = {
  repair: [Alt | key.Enter],
  "next-finding": [Alt | key.PageDown],
  "finding-before": [Alt | key.PageUp],
  "where-set": [CtrlCmd | key.Enter],
  rename: [key.F2],
  find: [CtrlCmd | key.KeyF],
  undo: [CtrlCmd | key.KeyZ],
  redo: [CtrlCmd | Shift | key.KeyZ, CtrlCmd | key.KeyY],
};

export const command = (id: CommandId) => textKeys.find((one) => one.id === id)!;

/** Binds every command's keys while the text has the focus. */
export function bindCommands(editor: CodeEditor, run: (id: CommandId) => void): { dispose(): void } {
  const bound = textKeys.map(({ id, says }) =>
    editor.addAction({
      id: `bevel.${id}`,
      label: says,
      keybindings: [...codes[id]],
      keybindingContext: "editorTextFocus",
      run: () => run(id),
    }),
  );
  // The browser's own menu can also ask for undo, past the keys.
  const onNative = (event: InputEvent) => {
    if (event.inputType !== "historyUndo" && event.inputType !== "historyRedo") return;
    event.preventDefault();
    event.stopPropagation();
    run(event.inputType === "historyUndo" ? "undo" : "redo");
  };
  const node = editor.getDomNode();
  node?.addEventListener("beforeinput", onNative as EventListener, true);
  return {
    dispose() {
      for (const one of bound) one.dispose();
      node?.removeEventListener("beforeinput", onNative as EventListener, true);
    },
  };
}
