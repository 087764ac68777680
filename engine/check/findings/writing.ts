// Findings about how a statement is written.
import { type FindingKind, list, meant } from "./define.ts";

export const WRITING: readonly FindingKind[] = [
  { code: "syntax/statement", weight: "error", says: ({ word, near }) => `No statement begins with “${word}”.${meant(near)}`, mend: "A line at the left edge begins with one of the statement words; indent it if it belongs to the statement above.", smallest: "figur width = 3 mm" },
  { code: "syntax/stray", weight: "error", says: () => "This line is indented, but there is no statement above it to belong to.", mend: "Begin the statement at the left edge.", smallest: "    figure width = 3 mm" },
  { code: "syntax/unexpected", weight: "error", says: ({ found, expected }) => (expected ? `“${found}” cannot stand here; ${expected} should come first.` : `“${found}” cannot stand here.`), mend: "Read the line aloud: something before this word is missing, or the word is one too many.", smallest: "figure width = 3 mm )" },
  { code: "syntax/unfinished", weight: "error", says: ({ after, expected }) => `The statement breaks off${after ? ` after “${after}”` : ""}${expected ? `; ${expected} should follow` : ""}.`, mend: "Finish the rule; lines that belong to it must be indented.", smallest: "figure width = 3 mm +" },
  { code: "syntax/quote", weight: "error", says: () => "The closing quote of this text is missing; a text ends on the line it began on.", mend: "Close the text with a double quote.", smallest: 'part "Bevel' },
  { code: "syntax/character", weight: "error", says: ({ text }) => `“${text}” means nothing in a rule.`, mend: "Take it out, or put it inside a text.", smallest: "figure width = 3 mm ; 4 mm" },
  { code: "syntax/brace", weight: "error", says: () => "This { has no } to close it.", mend: "Close the insert, or write {{ for a brace.", smallest: 'part "Bevel {width"' },
  { code: "syntax/insert", weight: "error", says: ({ text }) => `“${text}” between braces is no rule.`, mend: "Put a name or a rule between the braces, perhaps with `in` and a unit.", smallest: 'part "Bevel {3 +}"' },
  { code: "syntax/tight-slash", weight: "error", says: ({ text }) => `“${text}” is read as one unit; with spaces around the slash it divides.`, mend: "Put spaces around the slash.", smallest: "figure half = 3 mm + a/b" },
  { code: "syntax/reserved", weight: "error", says: ({ word }) => `“${word}” is a word of the language and cannot be a name.`, mend: "Choose another name; a longer one may contain the word: `over-spray`.", smallest: "figure over = 3 mm" },
  { code: "syntax/clause", weight: "error", says: ({ clause, keyword }) => `A ${keyword} cannot have “${clause}”.`, mend: "Take the clause out, or put it on the statement that it belongs to.", smallest: 'part "Bevel"\n    takes 5 min' },
  { code: "syntax/clause-twice", weight: "error", says: ({ clause }) => `“${clause}” stands here twice.`, mend: "Keep one of the two.", smallest: 'figure width = 3 mm\n    because "one"\n    because "two"' },
  { code: "syntax/no-text", weight: "error", says: ({ keyword }) => `This ${keyword} has no text.`, mend: "Write what it says, in quotes.", smallest: "step wash" },
  { code: "syntax/no-name", weight: "error", says: ({ keyword }) => `This ${keyword} has no name.`, mend: "Name it, so that cautions and worked examples can speak of it.", smallest: 'step "Wash the panel"' },
  { code: "band/upside-down", weight: "error", says: ({ text }) => `“${text}” runs from the larger to the smaller: nothing can lie in it.`, mend: "Write the smaller end first.", smallest: "ask depth in mm, 0 to 10\nfigure deep = yes if depth is 6 mm to 3 mm, otherwise no" },
  { code: "book/first", weight: "error", says: () => "The book statement comes first.", mend: "Move it to the top.", smallest: 'part "Bevel"\nbook shop, edition 1' },
  { code: "book/twice", weight: "error", says: () => "There is a book statement above already.", mend: "Keep one.", smallest: "book shop, edition 1\nbook yard, edition 1" },
  { code: "basis/unknown", weight: "error", says: ({ word, words, near }) => `“${word}” is no basis; write ${list(words)}.${meant(near)}`, mend: "A basis is practice, standard, house, label, test or memory.", smallest: "dial width = 3 mm, from 1 mm to 9 mm\n    from hearsay" },
  { code: "basis/missing", weight: "warning", says: ({ name, keyword }) => `The ${keyword} ${name} does not say what it is based on.`, mend: "Add `from practice`, `from standard \"...\"`, `from house \"who, when\"`, `from label`, `from test \"which log\"` or `from memory`.", smallest: "dial width = 3 mm, from 1 mm to 9 mm" },
];
