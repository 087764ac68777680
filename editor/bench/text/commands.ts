// What can be done in the text face, each with its own words and keys. The keys are
// shown wherever the words are.
import { monaco, type CodeEditor } from "./monaco.ts";

export type CommandId = "repair" | "next-finding" | "finding-before" | "where-set" | "rename" | "find" | "undo" | "redo";

interface Command {
  readonly id: CommandId;
  readonly says: string;
  /** As a person reads them. */
  readonly keys: string;
  readonly codes: readonly number[];
}

const { CtrlCmd, Alt, Shift } = monaco.KeyMod;
const key = monaco.KeyCode;

/** Where the keyboard has a command key, it takes the control key's part. */
const ctrl = /Mac|iPhone|iPad/.test(navigator.platform) ? "Cmd" : "Ctrl";

export const COMMANDS: readonly Command[] = [
  { id: "repair", says: "Repair", keys: "Alt+Enter", codes: [Alt | key.Enter] },
  { id: "next-finding", says: "Next finding", keys: "Alt+Page Down", codes: [Alt | key.PageDown] },
  { id: "finding-before", says: "Finding before", keys: "Alt+Page Up", codes: [Alt | key.PageUp] },
  { id: "where-set", says: "Where it is set", keys: `${ctrl}+Enter`, codes: [CtrlCmd | key.Enter] },
  { id: "rename", says: "Rename", keys: "F2", codes: [key.F2] },
  { id: "find", says: "Find", keys: `${ctrl}+F`, codes: [CtrlCmd | key.KeyF] },
  // Undo runs across both faces of the book, so the editor's own is never used.
  { id: "undo", says: "Undo", keys: `${ctrl}+Z`, codes: [CtrlCmd | key.KeyZ] },
  { id: "redo", says: "Do again", keys: `${ctrl}+Shift+Z`, codes: [CtrlCmd | Shift | key.KeyZ, CtrlCmd | key.KeyY] },
];

export const command = (id: CommandId): Command => COMMANDS.find((one) => one.id === id)!;

/** Binds every command's keys while the text has the focus. */
export function bindCommands(editor: CodeEditor, run: (id: CommandId) => void): { dispose(): void } {
  const bound = COMMANDS.map(({ id, says, codes }) =>
    editor.addAction({ id: `bevel.${id}`, label: says, keybindings: [...codes], keybindingContext: "editorTextFocus", run: () => run(id) }));
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
