// Findings about books that depend on others: what is used and cannot be found, and what a layer replaces,
// drops and adds.
import { type FindingKind, list, withArticle, wordsOf } from "./define.ts";

const edition = (name: unknown, of: unknown): string =>
  `${name}${of === undefined ? "" : `, edition ${String(of)}`}`;
const gone = (layer: unknown): string => (layer === undefined ? "" : ` ${String(layer)} has left it out.`);

export const LAYERS: readonly FindingKind[] = [
  {
    code: "use/missing",
    weight: "error",
    says: ({ name, edition: of, as, by }) =>
      `The book ${edition(name, of)}, which ${by === undefined ? "this one" : String(by)} ` +
      `${as === "used" ? "uses" : "amends"}, is not at hand.`,
  },
  {
    code: "use/edition",
    weight: "warning",
    says: ({ name, edition: of, has, moved }) =>
      `${edition(name, of)} is not at hand; the ${moved === "later" ? "later" : "earlier"} ` +
      `${has === undefined ? "one without an edition" : `edition ${has}`} is read. See ` +
      "what has changed, then name the edition that is read.",
  },
  {
    code: "use/circle",
    weight: "error",
    says: ({ way }) => `Books that stand on one another in a circle: ${wordsOf(way).join(" → ")}.`,
  },
  {
    code: "use/deep",
    weight: "error",
    says: ({ most }) => `Too many books stand on one another: ${most} at most, one on the other.`,
  },
  {
    code: "use/clash",
    weight: "error",
    says: ({ name, layer }) =>
      `${layer} brings ${name}, and there is one of that name already; that one counts.`,
  },
  {
    code: "use/faulty",
    weight: "error",
    says: ({ name, edition: of, count, says }) =>
      `${edition(name, of)} underneath has ${count === 1 ? "an error" : `${count} errors`}: ${says}`,
  },
  {
    code: "layer/none",
    weight: "error",
    says: ({ verb }) =>
      `Nothing stands underneath: ${verb} belongs in a book that says which book it amends.`,
  },
  {
    code: "layer/what",
    weight: "error",
    says: ({ verb, words }) =>
      `${verb} is followed by what it ${verb === "drop" ? "leaves out" : "replaces"}: ${list(words, 20)}.`,
  },
  {
    code: "layer/nothing",
    weight: "error",
    says: ({ verb, word, name, layer }) =>
      `There is no ${word}${name === undefined || name === "" ? "" : ` ${name}`} ` +
      "underneath to " +
      `${verb === "instead" ? "replace" : verb === "drop" ? "drop" : "add to"}.` +
      `${name === undefined && verb === "instead" ? " What is replaced is meant by its name." : gone(layer)}`,
  },
  {
    code: "layer/instead",
    weight: "error",
    says: ({ name, word, layer }) =>
      `${layer} has a ${word} ${name} already: write instead before it if it is to be replaced.`,
  },
  {
    code: "layer/sort",
    weight: "error",
    says: ({ name, word, was, layer }) => `${name} is ${withArticle(was)} in ${layer}, not a ${word}.`,
  },
  {
    code: "layer/span",
    weight: "error",
    says: ({ name, value, low, high, span }) =>
      span
        ? `The span of ${name} goes beyond that of the book below, ${low} to ${high}.`
        : `${name} is ${value}, outside the span that the book below gives, ${low} to ${high}.`,
  },
  {
    code: "layer/again",
    weight: "warning",
    says: ({ name, layer, below, word }) =>
      word === "dial"
        ? `${layer} turns the dial ${name} of ${below}, and this turns it again: what stands here counts.`
        : `${layer} replaces ${name} of ${below}, and this replaces it again without it: write ` +
          `as-before for what ${layer} says, if it is to count.`,
  },
  {
    code: "layer/drop-changed",
    weight: "warning",
    says: ({ name, layer, below }) =>
      `${layer} replaces ${name} of ${below}, and here it is dropped: what ${layer} says is lost.`,
  },
  {
    code: "layer/drop-own",
    weight: "error",
    says: ({ name, word }) => `The ${word} ${name} is replaced in this book: it cannot be dropped as well.`,
  },
  {
    code: "layer/row-again",
    weight: "warning",
    says: ({ name, layer }) => `${layer} gives ${name} this row already; this one takes its place.`,
  },
  {
    code: "layer/no-rows",
    weight: "error",
    says: ({ name }) => `Nothing is added to ${name}: its rows follow, indented, with | between their cells.`,
  },
  {
    code: "layer/because",
    weight: "error",
    says: ({ word, name, verb, layer }) =>
      `This ${verb} the ${word} ${name} of ${layer}: say why, with because.`,
  },
  {
    code: "layer/weaker",
    weight: "note",
    says: ({ word, name, verb, layer, text }) => `This ${verb} the ${word} ${name} of ${layer}: “${text}”.`,
  },
  {
    code: "layer/condition",
    weight: "error",
    says: ({ name, layer, condition }) =>
      `In ${layer} the step ${name} is done only when ${condition}, and this drops that. After the new ` +
      "condition write “and as-before” to keep it, or “or as-before” to do the step in both cases.",
  },
  {
    code: "layer/after",
    weight: "error",
    says: ({ name, isLayer }) =>
      isLayer
        ? `There is no step ${name} to stand after.`
        : `Steps stand in the order of the book; after belongs in a book that amends another.`,
  },
  {
    code: "layer/as-before",
    weight: "error",
    says: () =>
      "as-before is the rule underneath: it belongs in a statement that begins with " +
      "instead and replaces one.",
  },
];
