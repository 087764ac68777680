// Findings about asks, dials, drawings, worked examples, promises, and the limits of a book.
import { type FindingKind, list, meant, withArticle } from "./define.ts";

export const BOOK: readonly FindingKind[] = [
  {
    code: "ask/of-what",
    weight: "error",
    says: ({ name }) => `It is not said what ${name} is answered with.`,
  },
  {
    code: "ask/no-range",
    weight: "error",
    says: ({ name, unit }) =>
      `${name} has no range; the least and the greatest answer that makes sense stand ` +
      `after a comma${unit ? `, as in ${unit}, 1 to 12` : ""}.`,
  },
  {
    code: "ask/range",
    weight: "error",
    says: ({ name, kind, single }) =>
      kind
        ? `${name} is answered with a word: it has no range.`
        : single
          ? `The range of ${name} allows one answer only: widen it, or make ${name} a dial.`
          : `The range of ${name} runs from the larger to the smaller.`,
  },
  {
    code: "ask/usual",
    weight: "error",
    says: ({ name, form, turned, value, low, high }) =>
      form === true
        ? `What is usual of ${name} is a span: usually LOW to HIGH.`
        : form === false
          ? `${name} is answered with a word: name the usual ones, with commas.`
          : turned
            ? `What is usual of ${name} runs from the larger to the smaller.`
            : `${value} is not possible for ${name}, so it cannot be usual: the range is ${low} to ${high}.`,
  },
  {
    code: "ask/fallback",
    weight: "error",
    says: ({ name, value, low, high }) =>
      `Where ${name} is not known ${value} is taken, which is outside its range, ${low} to ${high}.`,
  },
  {
    code: "dial/literal",
    weight: "error",
    says: ({ name }) => `A dial is a number to be set, not worked out: make ${name} a figure.`,
  },
  {
    code: "dial/span",
    weight: "error",
    says: ({ name, upsideDown, value, low, high }) =>
      upsideDown
        ? `The span of ${name} runs from the larger to the smaller.`
        : `${name} is ${value}, outside its span from ${low} to ${high}.`,
  },
  {
    code: "picture/unknown",
    weight: "error",
    says: ({ shape, shapes, near }) =>
      `There is no drawing called ${shape}; there are ${list(shapes)}.${meant(near)}`,
  },
  {
    code: "picture/argument",
    weight: "error",
    says: ({ shape, name, wants, near }) =>
      `The drawing ${shape} knows no ${name}; it knows ${list(wants)}.${meant(near)}`,
  },
  {
    code: "picture/missing",
    weight: "error",
    says: ({ shape, missing, any }) =>
      `The drawing ${shape} cannot be made without ${any ? `one of ${list(missing)}` : list(missing)}.`,
  },
  { code: "picture/twice", weight: "error", says: ({ name }) => `This drawing is given ${name} twice.` },
  {
    code: "picture/wants",
    weight: "error",
    says: ({ name, wants, has }) => `${name} of a drawing is ${wants}; this is ${has}.`,
  },
  {
    code: "ask/drawn",
    weight: "error",
    says: ({ word, words, near }) =>
      `There is no place called ${word} to show in the drawing of a question; there are ` +
      `${list(words, 12)}.${meant(near)}`,
  },
  {
    code: "ask/drawn-as",
    weight: "error",
    says: ({ word, wants, name, has }) => `${word} shows where ${wants} is measured; ${name} is ${has}.`,
  },
  {
    code: "worked/fails",
    weight: "error",
    says: ({ example, what, wanted, got }) =>
      `The worked example ${example} expects ${what} ${wanted}; the book gives ${got}.`,
  },
  {
    code: "worked/answer",
    weight: "error",
    says: ({ example, says }) => `The worked example ${example} cannot be worked: ${says}`,
  },
  {
    code: "worked/not-asked",
    weight: "error",
    says: ({ name, what }) => `${name} is ${withArticle(what)}; only what is asked can be given.`,
  },
  { code: "worked/nothing", weight: "warning", says: () => "This worked example expects nothing." },
  {
    code: "worked/text",
    weight: "error",
    says: ({ name, kept, inserts, tolerance }) =>
      kept
        ? `${name} keeps several texts, and a worked example cannot expect those. Expect one ` +
          "of the values that they are made from."
        : inserts
          ? `A worked example is one job: write the text that ${name} has in it as it reads ` +
            "there, with the amounts themselves in place of what stands in { }."
          : tolerance
            ? `${name} is a text, and a text has no tolerance. Take the ± away.`
            : `${name} is a text. Write in double quotes what it reads in this job.`,
  },
  {
    code: "worked/expects",
    weight: "error",
    says: ({ word, states, near }) =>
      `${word} is nothing that a worked example can expect; it expects values, ` +
      `${list(states)}, or a step, caution or stop by name.${meant(near)}`,
  },
  {
    code: "promise/when-stopped",
    weight: "warning",
    says: ({ rule, when }) =>
      `This asks for ${rule} in every stopped job too. Where stopped jobs are spared: ` +
      `${rule} or stopped when ${when}.`,
  },
  {
    code: "promise/broken",
    weight: "error",
    says: ({ rule, example }) => `The promise “${rule}” is broken by the worked example ${example}.`,
  },
  {
    code: "budget/size",
    weight: "error",
    says: ({ has, most }) => `The book has ${has} bytes; at most ${most} are read.`,
  },
  {
    code: "budget/lines",
    weight: "error",
    says: ({ has, most }) => `The book has ${has} lines; at most ${most} are read.`,
  },
  {
    code: "budget/nesting",
    weight: "error",
    says: ({ most, chain }) =>
      chain ? `This rule has more than ${most} operations.` : `This rule is nested more than ${most} deep.`,
  },
  {
    code: "budget/list",
    weight: "error",
    says: ({ has, most }) => `This list would have ${has} rows; a list has at most ${most}.`,
  },
  {
    code: "budget/formulas",
    weight: "error",
    says: () => "The formulas of this rule grow beyond what is worked.",
  },
];
