// Findings about charts.
import { type FindingKind, list, meant, wordsOf } from "./define.ts";

export const CHARTS: readonly FindingKind[] = [
  { code: "chart/hole", weight: "error", says: ({ name, witness }) => `${name} has no row for ${witness}.` },
  {
    code: "chart/overlap",
    weight: "error",
    says: ({ name, witness, first, second }) =>
      `Rows ${first} and ${second} of ${name} both apply for ${witness}.`,
  },
  {
    code: "chart/never",
    weight: "warning",
    says: ({ row }) => `Row ${row} can never be reached: the rows above it take everything first.`,
  },
  {
    code: "chart/ends",
    weight: "note",
    says: ({ name, witness }) => `${name} gives nothing for ${witness}.`,
  },
  {
    code: "chart/grid",
    weight: "error",
    says: ({ has, wants }) => `Points over two numbers must form a full grid: ${has} of ${wants} are here.`,
  },
  {
    code: "chart/points",
    weight: "error",
    says: ({ name, single, count }) =>
      single
        ? "There is only one point here: nothing lies between."
        : Number(count) > 2
          ? `${name} goes between points over ${count} numbers; one or two are possible.`
          : `${name} has no column of single points to go between.`,
  },
  {
    code: "chart/between",
    weight: "error",
    says: ({ name, type }) => `${name} gives ${type}: there is nothing between two of them.`,
  },
  {
    code: "chart/options",
    weight: "error",
    says: ({ option, needs }) =>
      needs
        ? `“${option}” only means something with “${needs}”.`
        : `“${option}” contradicts what stands before it.`,
  },
  {
    code: "chart/header",
    weight: "error",
    says: ({ missing, has, wants }) =>
      `The first line of a chart names its columns, ${wordsOf(wants).slice(0, 8).join(" | ")}; this ` +
      `one ${missing ? `lacks ${missing}` : `has ${has}`}.`,
  },
  {
    code: "chart/width",
    weight: "error",
    says: ({ has, wants }) => `This row has ${has} cells; the chart has ${wants} columns.`,
  },
  { code: "chart/empty", weight: "error", says: () => "This cell is empty." },
  { code: "chart/no-rows", weight: "error", says: ({ name }) => `The chart ${name} has no rows.` },
  {
    code: "chart/cell",
    weight: "error",
    says: ({ text, type, column }) => `“${text}” is no condition on ${column}, which is ${type}.`,
  },
  {
    code: "chart/end",
    weight: "error",
    says: ({ text }) => `${text} is worked out for each job; the end of a band is a number or a dial.`,
  },
  {
    code: "chart/value",
    weight: "error",
    says: ({ text, has, wants, column }) => `“${text}” is ${has}; the column ${column} wants ${wants}.`,
  },
  {
    code: "chart/gives",
    weight: "error",
    says: ({ name, near }) => `${name} is neither a unit nor a kind.${meant(near)}`,
  },
  {
    code: "chart/condition-twice",
    weight: "error",
    says: ({ name }) => `${name} is a condition of this chart already.`,
  },
  {
    code: "chart/called",
    weight: "error",
    says: ({ name, wants, column }) =>
      `${name} has conditions of its own and a value only for what stands in brackets: ` +
      `${name}(${list(wants)})${column ? `.${column}` : ""}.`,
  },
  {
    code: "chart/not-kept",
    weight: "error",
    says: ({ name, doing }) =>
      `“${doing}” wants a chart that keeps every row that fits, and ${name} does not.`,
  },
  {
    code: "chart/kept-one",
    weight: "error",
    says: ({ name }) => `${name} keeps every row that fits, so it can give one value only.`,
  },
];
