// Findings about names: unknown, twice, in a loop, unused, of the wrong sort.
import { type FindingKind, list, meant, withArticle, wordsOf } from "./define.ts";
import { instead } from "./hints.ts";

export const NAMES: readonly FindingKind[] = [
  {
    code: "name/unknown",
    weight: "error",
    says: ({ name, near }) => `Nothing here is called ${name}.${instead(String(name)) || meant(near)}`,
  },
  {
    code: "name/tight",
    weight: "error",
    says: ({ name, spaced }) => `Nothing is called ${name}; with spaces, ${spaced} subtracts.`,
  },
  {
    code: "text/insert",
    weight: "error",
    says: ({ name, near }) => `The text inserts ${name}, and nothing is called that.${meant(near)}`,
  },
  {
    code: "name/line",
    weight: "error",
    says: ({ name, what }) =>
      `${name} is a ${what}, and a rule cannot look at it: name what its “when” tests as a ` +
      "figure, and test that." +
      `${what === "stop" ? " Whether any stop holds is stopped." : ""}`,
  },
  { code: "name/twice", weight: "error", says: ({ name }) => `${name} is set twice; the first one counts.` },
  {
    code: "name/clash",
    weight: "error",
    says: ({ name, kind }) => `${name} is already a word of the kind ${kind}.`,
  },
  {
    code: "name/built-in",
    weight: "error",
    says: ({ name }) =>
      `${name} is a word of the language itself; choose another name, such as house-${name}.`,
  },
  {
    code: "name/loop",
    weight: "error",
    says: ({ path }) => {
      const names = wordsOf(path);
      return names.length <= 2
        ? `${names[0]} is worked out from itself.`
        : `These are worked out from one another: ${names.join(" → ")}.`;
    },
  },
  {
    code: "name/unused",
    weight: "warning",
    says: ({ name, keyword }) =>
      keyword === "ask" ? `No rule uses the answer to ${name}.` : `Nothing uses the ${keyword} ${name}.`,
  },
  {
    code: "name/formula",
    weight: "error",
    says: ({ name }) => `${name} is a formula: it wants its values in brackets.`,
  },
  {
    code: "name/column",
    weight: "error",
    says: ({ name, written, columns }) =>
      written
        ? `${name} has no column ${written}; it has ${list(columns)}.`
        : `${name} has several values: write ${wordsOf(columns)
            .map((c) => `${name}.${c}`)
            .join(" or ")}.`,
  },
  {
    code: "name/no-column",
    weight: "error",
    says: ({ name, type }) => `${name} is ${type} and has no columns.`,
  },
  {
    code: "name/step",
    weight: "error",
    says: ({ name, what, near }) => `There is no ${what} called ${name}.${meant(near)}`,
  },
  {
    code: "call/not-formula",
    weight: "error",
    says: ({ name, what }) =>
      `${name} is ${withArticle(what)}, neither a formula nor a ` +
      "chart: nothing goes in brackets behind it.",
  },
  {
    code: "call/kept",
    weight: "error",
    says: ({ name }) =>
      `${name} keeps every row that fits, so it gives no single value for what stands in brackets.`,
  },
  {
    code: "call/count",
    weight: "error",
    says: ({ name, has, wants, parameters }) =>
      `${name} wants ${wants} ${wants === 1 ? "value" : "values"}` +
      `${parameters ? ` (${list(parameters)})` : ""}, not ${has}.`,
  },
  {
    code: "kind/unknown",
    weight: "error",
    says: ({ name, near }) => `There is no kind ${name}.${meant(near)}`,
  },
  {
    code: "kind/word",
    weight: "error",
    says: ({ word, kind, words, near }) => `${word} is not a word of ${kind}: ${list(words)}.${meant(near)}`,
  },
  {
    code: "kind/which",
    weight: "error",
    says: ({ word, kinds }) => `${word} is a word of several kinds: ${list(kinds)}.`,
  },
  {
    code: "kind/mismatch",
    weight: "error",
    says: ({ has, wants, because }) => `This is one of ${has}, and one of ${wants} is wanted: ${because}.`,
  },
  { code: "kind/twice", weight: "error", says: ({ word, kind }) => `${word} stands twice in ${kind}.` },
  {
    code: "kind/two-words",
    weight: "error",
    says: ({ first, second }) =>
      `${first} and ${second} are two words here; one word of a kind has no blank in it: ${first}-${second}.`,
  },
  { code: "kind/empty", weight: "error", says: ({ kind }) => `The kind ${kind} has no words.` },
];
