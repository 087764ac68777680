// Findings about units, types and what may be done with what.
import { capitalise } from "../../../../core/capitalise.ts";
import { type FindingKind, list, meant } from "./define.ts";
import { instead } from "./hints.ts";

export const AMOUNTS: readonly FindingKind[] = [
  {
    code: "unit/unknown",
    weight: "error",
    says: ({ unit, near }) => `${unit} is not a unit.${instead(String(unit)) || meant(near)}`,
  },
  {
    code: "unit/mismatch",
    weight: "error",
    says: ({ doing, left, right }) =>
      `Cannot ${doing} these two: the left is ${left}, the right is ${right}.`,
  },
  {
    code: "unit/bare",
    weight: "error",
    says: ({ number, type, unit, doing }) =>
      `${number} has no unit, and it stands beside ${type}` +
      `${doing === "answer" || doing === "expect" ? "" : ` to ${doing}`}.` +
      `${unit ? ` Did you mean ${number} ${unit}?` : ""}`,
  },
  {
    code: "unit/declared",
    weight: "error",
    says: ({ unit, wants, type, where }) => `${unit ?? wants} is wanted ${where}, and this is ${type}.`,
  },
  {
    code: "unit/parts",
    weight: "error",
    says: ({ units }) =>
      `${list(units)} cannot be written as one amount; only lengths and times can, as 5 ft ` +
      "3 inch or 1 h 30 min.",
  },
  {
    code: "money/two",
    weight: "error",
    says: ({ currency, first }) => `A book reckons in one currency: ${first} stands above, ${currency} here.`,
  },
  {
    code: "temperature/point",
    weight: "error",
    says: ({ doing, both, point, apart, literal }) =>
      both
        ? "Two temperatures on the scale cannot be added; one of them must be apart, as 3 °C apart."
        : `${point} is a temperature on the scale and ${apart} is a difference; ` +
          `${literal ? `write ${point} apart for a difference` : `they cannot be used to ${doing}`}` +
          ".",
  },
  {
    code: "temperature/times",
    weight: "error",
    says: ({ text }) => `${text} is a temperature on the scale: twice 10 °C means nothing.`,
  },
  {
    code: "share/basis",
    weight: "error",
    says: ({ doing, left, right, amount, other, of, type }) =>
      !amount
        ? `Cannot ${doing} these two: one is a share ` +
          `${left === "plain" ? "without a basis" : `by ${left}`}, the other ` +
          `${right === "plain" ? "has none" : `by ${right}`}.`
        : other
          ? `A ${doing === "of" ? "share" : "mix"} by ${left} cannot be taken of a ` +
            `${left === "mass" ? "volume" : "mass"}: the density of ${of} is missing.`
          : `A ${doing === "of" ? "share" : "mix"} by ${left} wants a ${left}, and ${of} is ${type}.`,
  },
  {
    code: "share/times",
    weight: "error",
    says: ({ type, word, op }) =>
      `${capitalise(String(type))} is not ` +
      `${op === "*" ? "multiplied" : "divided"}: it is written with “${word}”.`,
  },
  {
    code: "share/number",
    weight: "error",
    says: ({ doing, number, named, by }) =>
      `Cannot ${doing} a plain number and a share: ` +
      `${named ? `declare ${number} in %` : `give ${number} a figure of its own, declared in %`}` +
      `${by === "plain" ? "" : `, and leave out “by ${by}”: a quotient has no basis`}.`,
  },
  {
    code: "share/wanted",
    weight: "error",
    says: ({ has }) => `A share stands before “of”, and this is ${has}.`,
  },
  {
    code: "taper/turned",
    weight: "note",
    says: ({ written, read }) => `${written} is read as ${read}: thickness first, then the run.`,
  },
  {
    code: "number/size",
    weight: "error",
    says: ({ text }) => `${text} is no number that can be worked with.`,
  },
  { code: "mix/zero", weight: "error", says: () => "A mix has no nought in it: both parts are there." },
  { code: "taper/zero", weight: "error", says: () => "A taper has no nought in it." },
  {
    code: "type/wanted",
    weight: "error",
    says: ({ has, wants, because }) =>
      `This is ${has}, and ${wants} is wanted: ${because}.` +
      `${/^a (mix|taper)\b/.test(String(has)) ? " ratio(…) makes a plain number of it." : ""}`,
  },
  {
    code: "count/whole",
    weight: "error",
    says: ({ name, because }) =>
      because === undefined
        ? `${name} is a count, and this rule may give a broken number.`
        : `A count is wanted, and this may be a broken number: ${because}.`,
  },
  {
    code: "round/whole",
    weight: "error",
    says: ({ type, unit }) =>
      `Only a plain number is rounded to whole; this is ${type}.${unit ? ` Round it to 1 ${unit}.` : ""}`,
  },
  { code: "round/step", weight: "error", says: () => "One rounds to multiples of something above zero." },
  {
    code: "power/whole",
    weight: "error",
    says: ({ type }) =>
      `${capitalise(String(type))} can only be raised to a whole number that is written out.`,
  },
  {
    code: "choose/open",
    weight: "error",
    says: ({ witness }) =>
      witness
        ? `None of the alternatives applies for ${witness}.`
        : "It cannot be seen that these alternatives cover every case.",
  },
  {
    code: "list/whole",
    weight: "error",
    says: ({ name, column }) =>
      `${name} is a list: say which row of ${column}, with sum of, largest of, smallest ` +
      "of, first of or last of.",
  },
  {
    code: "list/wanted",
    weight: "error",
    says: ({ name, doing, type }) => `“${doing}” wants a list, and ${name} is ${type}.`,
  },
  { code: "list/no-columns", weight: "error", says: ({ name }) => `The list ${name} has no columns.` },
  {
    code: "list/before",
    weight: "error",
    says: ({ name, inList }) =>
      inList
        ? `“${name} before” is a column in the row above, and this list has no column ${name}.`
        : `“${name} before” is a column in the row above: it stands in a column of a list.`,
  },
  {
    code: "list/before-first",
    weight: "error",
    says: ({ column, counter, first }) =>
      `The first row has none above it: ${column} wants a start of its own, such as “… if ` +
      `${counter} is ${first ?? 1}, otherwise …”.`,
  },
  {
    code: "list/text",
    weight: "error",
    says: ({ column }) =>
      `${column} is a text with inserts, and a list keeps values: every row would read as ` +
      "the last. Keep the values in the list and write the text where it is shown.",
  },
  {
    code: "list/before-type",
    weight: "error",
    says: ({ name }) => `${name} is worked out from itself alone: say what it is, with in and a unit.`,
  },
  {
    code: "steps/what",
    weight: "error",
    says: () =>
      "Of the steps that apply there are sum of steps.takes, sum of steps.waits and count of steps.",
  },
  {
    code: "unit/counted",
    weight: "error",
    says: ({ type, unit, number, ratio }) =>
      number
        ? "This is a plain number already."
        : `This is ${type}, which is not counted in ${unit}.${ratio ? " Its plain number is ratio(…)." : ""}`,
  },
  {
    code: "list/column-twice",
    weight: "error",
    says: ({ name }) => `${name} is already a name in this list.`,
  },
];
