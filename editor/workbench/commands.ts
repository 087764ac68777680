// What can be done in the workbench by a key, wherever the focus is: one record each, read by the key
// listener and shown in the help panel.

/** What the commands act on; the app gives it. */
export interface BenchCommands {
  undo(): void;
  redo(): void;
  accept(): void;
  find(): void;
  help(): void;
  save(): void;
  show(view: "sheet" | "text" | "both" | "card" | "standing" | "editions"): void;
  addStatement(): void;
  repairHere(): void;
  nextFinding(by: 1 | -1): void;
  backToSheet(): void;
}

/**
 * The key that makes the first repair offered, the same over a cell, while a rule is written, and in the
 * text.
 */
export const repairKey = "Alt+Enter";

export interface Command {
  readonly name: string;
  /** As a person reads it. */
  readonly says: string;
  readonly keys: string;
  readonly matches: (press: KeyboardEvent) => boolean;
  /** Also while the focus is in a field that is being typed into. */
  readonly inFields: boolean;
  readonly effect: (bench: BenchCommands) => void;
}

const ctrl = (press: KeyboardEvent, key: string, shift = false): boolean =>
  (press.ctrlKey || press.metaKey) &&
  !press.altKey &&
  press.shiftKey === shift &&
  press.key.toLowerCase() === key;
const alt = (press: KeyboardEvent, key: string): boolean =>
  press.altKey && !press.ctrlKey && !press.metaKey && press.key.toLowerCase() === key;
const plain = (press: KeyboardEvent, key: string): boolean =>
  !press.altKey && !press.ctrlKey && !press.metaKey && press.key === key;

export const commands: readonly Command[] = [
  {
    name: "undo",
    says: "undo, in either face",
    keys: "Ctrl+Z",
    matches: (press) => ctrl(press, "z"),
    inFields: false,
    effect: (bench) => bench.undo(),
  },
  {
    name: "redo",
    says: "do again",
    keys: "Ctrl+Shift+Z",
    matches: (press) => ctrl(press, "z", true) || ctrl(press, "y"),
    inFields: false,
    effect: (bench) => bench.redo(),
  },
  {
    name: "accept",
    says: "accept the change: the new values stand",
    keys: "Alt+A",
    matches: (press) => alt(press, "a"),
    inFields: false,
    effect: (bench) => bench.accept(),
  },
  {
    name: "repair",
    says: "make the first repair offered: for the chosen rule, while it is written, and in the text",
    keys: repairKey,
    matches: (press) => alt(press, "enter"),
    inFields: false,
    effect: (bench) => bench.repairHere(),
  },
  {
    name: "next-finding",
    says: "go to the next finding",
    keys: "Alt+Page down",
    matches: (press) => alt(press, "pagedown"),
    inFields: false,
    effect: (bench) => bench.nextFinding(1),
  },
  {
    name: "finding-before",
    says: "go to the finding before",
    keys: "Alt+Page up",
    matches: (press) => alt(press, "pageup"),
    inFields: false,
    effect: (bench) => bench.nextFinding(-1),
  },
  {
    name: "add",
    says: "write a new statement below the chosen one",
    keys: "Alt+N",
    matches: (press) => alt(press, "n"),
    inFields: false,
    effect: (bench) => bench.addStatement(),
  },
  {
    name: "find",
    says: "find in names, rules and questions",
    keys: "Ctrl+F or /",
    matches: (press) => ctrl(press, "f") || plain(press, "/"),
    inFields: false,
    effect: (bench) => bench.find(),
  },
  {
    name: "save",
    says: "save the book to a file",
    keys: "Ctrl+S",
    matches: (press) => ctrl(press, "s"),
    inFields: true,
    effect: (bench) => bench.save(),
  },
  {
    name: "sheet",
    says: "show the sheet",
    keys: "Alt+1",
    matches: (press) => alt(press, "1"),
    inFields: true,
    effect: (bench) => bench.show("sheet"),
  },
  {
    name: "text",
    says: "show the text",
    keys: "Alt+2",
    matches: (press) => alt(press, "2"),
    inFields: true,
    effect: (bench) => bench.show("text"),
  },
  {
    name: "both",
    says: "show sheet and text beside each other",
    keys: "Alt+3",
    matches: (press) => alt(press, "3"),
    inFields: true,
    effect: (bench) => bench.show("both"),
  },
  {
    name: "card",
    says: "show the chosen job's questions and card",
    keys: "Alt+4",
    matches: (press) => alt(press, "4"),
    inFields: true,
    effect: (bench) => bench.show("card"),
  },
  {
    name: "standing",
    says: "show how the book stands: what is proved of it",
    keys: "Alt+5",
    matches: (press) => alt(press, "5"),
    inFields: true,
    effect: (bench) => bench.show("standing"),
  },
  {
    name: "editions",
    says: "hold the book against another edition: what changes, and what that does to jobs",
    keys: "Alt+6",
    matches: (press) => alt(press, "6"),
    inFields: true,
    effect: (bench) => bench.show("editions"),
  },
  {
    name: "back",
    says: "close the side panel; back to the sheet",
    keys: "Escape",
    matches: (press) => plain(press, "Escape"),
    inFields: false,
    effect: (bench) => bench.backToSheet(),
  },
  {
    name: "help",
    says: "these keys",
    keys: "?",
    matches: (press) => plain(press, "?"),
    inFields: false,
    effect: (bench) => bench.help(),
  },
];

/**
 * The command that a key press stands for. Keys typed into a field, or meant for the text view, are left
 * alone.
 */
export function commandFor(press: KeyboardEvent): Command | undefined {
  const target = press.target instanceof HTMLElement ? press.target : undefined;
  const typing =
    target !== undefined &&
    (target.matches("input:not([type=radio]):not([type=checkbox]), textarea, select") ||
      target.isContentEditable ||
      target.closest(".text-face") !== null);
  return commands.find((command) => command.matches(press) && (command.inFields || !typing));
}
