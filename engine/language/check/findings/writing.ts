// Findings about how a statement is written.
import { type FindingKind, list, meant } from "./define.ts";
import { instead, unexpected } from "./hints.ts";

export const WRITING: readonly FindingKind[] = [
  {
    code: "syntax/statement",
    weight: "error",
    says: ({ word, near }) => `No statement begins with “${word}”.${meant(near)}`,
  },
  {
    code: "syntax/stray",
    weight: "error",
    says: () => "This line is indented, but there is no statement above it to belong to.",
  },
  {
    code: "syntax/unexpected",
    weight: "error",
    says: (facts) =>
      facts.expected
        ? `“${facts.found}” cannot stand here; ${facts.expected} should come first.`
        : `“${facts.found}” cannot stand here.${unexpected(facts)}`,
  },
  {
    code: "syntax/unfinished",
    weight: "error",
    says: ({ after, expected }) =>
      `The statement breaks off${after ? ` after “${after}”` : ""}` +
      `${expected ? `; ${expected} should follow` : ""}.`,
  },
  {
    code: "syntax/quote",
    weight: "error",
    says: () => "The closing quote of this text is missing; a text ends on the line it began on.",
  },
  {
    code: "syntax/character",
    weight: "error",
    says: ({ text }) => `“${text}” means nothing in a rule.${instead(String(text))}`,
  },
  { code: "syntax/brace", weight: "error", says: () => "This { has no } to close it." },
  { code: "syntax/insert", weight: "error", says: ({ text }) => `“${text}” between braces is no rule.` },
  {
    code: "syntax/tight-slash",
    weight: "error",
    says: ({ text }) => `“${text}” is read as one unit; with spaces around the slash it divides.`,
  },
  {
    code: "syntax/reserved",
    weight: "error",
    says: ({ word }) => `“${word}” is a word of the language and cannot be a name.`,
  },
  {
    code: "syntax/clause",
    weight: "error",
    says: ({ clause, keyword }) => `A ${keyword} cannot have “${clause}”.`,
  },
  { code: "syntax/clause-twice", weight: "error", says: ({ clause }) => `“${clause}” stands here twice.` },
  { code: "syntax/no-text", weight: "error", says: ({ keyword }) => `This ${keyword} has no text.` },
  {
    code: "syntax/no-name",
    weight: "error",
    says: ({ keyword }) => `This ${keyword} has no name; it stands right after the word ${keyword}.`,
  },
  {
    code: "band/upside-down",
    weight: "error",
    says: ({ text, same }) =>
      same
        ? `“${text}” ends where it begins: nothing can lie in it.`
        : `“${text}” runs from the larger to the smaller: nothing can lie in it.`,
  },
  { code: "book/first", weight: "error", says: () => "The book statement comes first." },
  { code: "book/twice", weight: "error", says: () => "There is a book statement above already." },
  {
    code: "basis/unknown",
    weight: "error",
    says: ({ word, words, near }) => `“${word}” is no basis; write ${list(words)}.${meant(near)}`,
  },
  {
    code: "basis/missing",
    weight: "warning",
    says: ({ name, keyword }) => `The ${keyword} ${name} does not say what it is based on.`,
  },
];
