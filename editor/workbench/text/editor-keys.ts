// The keys of the text face, in words: shown beside what they do and in the help, which must not load the
// editor.

export type TextKey =
  | "repair"
  | "next-finding"
  | "finding-before"
  | "where-set"
  | "rename"
  | "find"
  | "undo"
  | "redo";

/** Where the keyboard has a command key, it takes the control key's part. */
const ctrl = typeof navigator !== "undefined" && /Mac|iPhone|iPad/.test(navigator.platform) ? "Cmd" : "Ctrl";

export const textKeys: readonly { readonly id: TextKey; readonly says: string; readonly keys: string }[] = [
  { id: "repair", says: "Repair", keys: "Alt+Enter" },
  { id: "next-finding", says: "Next finding", keys: "Alt+Page Down" },
  { id: "finding-before", says: "Finding before", keys: "Alt+Page Up" },
  { id: "where-set", says: "Where it is set", keys: `${ctrl}+Enter` },
  { id: "rename", says: "Rename", keys: "F2" },
  { id: "find", says: "Find", keys: `${ctrl}+F` },
  // Undo runs across both faces of the book, so the editor's own is never used.
  { id: "undo", says: "Undo", keys: `${ctrl}+Z` },
  { id: "redo", says: "Do again", keys: `${ctrl}+Shift+Z` },
];

/** The keys that no command shows: how to leave the text, and how to take what is offered. */
export const typingKeys: readonly { readonly says: string; readonly keys: string }[] = [
  { keys: "Tab or Enter", says: "take the offered word" },
  { keys: "Escape, then Tab", says: "leave the text for the next control" },
];
