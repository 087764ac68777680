// Reads one statement by the grammar's rule for its word.
import type { IToken } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import type { Clause } from "./grammar-clauses.ts";
import { type Reading, fillTexts, grammar, parseTokens } from "./parser.ts";
import { readAdded, readChart } from "./read-chart.ts";
import type { StatementWord } from "./statement-words.ts";
import type { Body, Fault, Text } from "./tree.ts";

type Reader = (text: string, tokens: IToken[]) => Reading | { readonly fault: Fault };

export function readStatement(word: StatementWord, text: string, tokens: IToken[]): ReturnType<Reader> {
  // A statement that failed leaves its texts behind: their inserts are no part of this one.
  grammar.texts = [];
  return READERS[word](text, tokens);
}

/** A reader that makes a statement of what a rule of the grammar gives. */
const reader =
  <R>(rule: () => R, make: (read: R) => Omit<Reading, "faults">): Reader =>
  (text, tokens) => {
    const faults: Fault[] = [];
    const read = parseTokens(text, tokens, rule);
    if ("fault" in read) return read;
    fillTexts(text, faults);
    return { ...make(read.made), faults };
  };

const cardLine = (body: Extract<Body, { keyword: "step" | "caution" | "stop" }>): Reader =>
  reader(
    () => grammar.line(),
    ({ name, clauses }) => {
      const title = clauses.find((clause) => clause.is === "title");
      return {
        ...(name ? { name } : {}),
        clauses,
        ...(title ? { ruleAt: title.at } : {}),
        body,
      };
    },
  );

/** The clauses with a title that is read apart from them. */
const withTitle = (title: Text | undefined, clauses: readonly Clause[]): readonly Clause[] =>
  title === undefined ? clauses : [{ is: "title", at: title.at, text: title }, ...clauses];

/** From the first to the last of several stretches; nothing where there are none. */
const overAll = (all: readonly { readonly at: Span }[]): { readonly ruleAt?: Span } =>
  all.length === 0
    ? {}
    : {
        ruleAt: {
          start: Math.min(...all.map((one) => one.at.start)),
          end: Math.max(...all.map((one) => one.at.end)),
        },
      };

const READERS: Readonly<Record<StatementWord, Reader>> = {
  book: reader(
    () => grammar.book(),
    ({ name, edition, amends, clauses }) => ({
      name,
      clauses,
      body: {
        keyword: "book",
        ...(edition !== undefined ? { edition } : {}),
        ...(amends ? { amends } : {}),
      },
    }),
  ),
  part: reader(
    () => grammar.line(),
    ({ name, clauses }) => ({ ...(name ? { name } : {}), clauses, body: { keyword: "part" } }),
  ),
  kind: reader(
    () => grammar.kind(),
    ({ name, words }) => ({ name, clauses: [], body: { keyword: "kind", words } }),
  ),
  ask: reader(
    () => grammar.ask(),
    ({ name, declared, range, usually, ruleEnd, clauses }) => ({
      name,
      clauses,
      ruleAt: { start: name.at.end, end: ruleEnd },
      body: {
        keyword: "ask",
        declared,
        ...(range ? { range } : {}),
        ...(usually ? { usually } : {}),
      },
    }),
  ),
  dial: reader(
    () => grammar.dial(),
    ({ name, declared, rule, range, ruleEnd, clauses }) => ({
      name,
      clauses,
      ruleAt: { start: rule.at.start, end: ruleEnd },
      body: { keyword: "dial", declared, rule, ...(range ? { range } : {}) },
    }),
  ),
  figure: reader(
    () => grammar.figure(),
    ({ name, declared, rule, clauses }) => ({
      name,
      clauses,
      ruleAt: rule.at,
      body: { keyword: "figure", declared, rule },
    }),
  ),
  formula: reader(
    () => grammar.formula(),
    ({ name, parameters, rule, clauses }) => ({
      name,
      clauses,
      ruleAt: rule.at,
      body: { keyword: "formula", parameters, rule },
    }),
  ),
  chart: (text, tokens) => (tokens[1]?.image === "add" ? readAdded(text, tokens) : readChart(text, tokens)),
  list: reader(
    () => grammar.list(),
    ({ name, counter, from, to, columns, ruleEnd, clauses }) => ({
      name,
      clauses,
      ruleAt: { start: from.at.start, end: ruleEnd },
      body: { keyword: "list", counter, from, to, columns },
    }),
  ),
  step: cardLine({ keyword: "step" }),
  caution: cardLine({ keyword: "caution" }),
  stop: cardLine({ keyword: "stop" }),
  // Everything but the state of the job and its words is as with a stop.
  refer: cardLine({ keyword: "stop", refers: true }),
  promise: reader(
    () => grammar.promise(),
    ({ rule, clauses }) => ({ clauses, ruleAt: rule.at, body: { keyword: "promise", rule } }),
  ),
  picture: reader(
    () => grammar.picture(),
    ({ shape, title, given, clauses }) => ({
      clauses: withTitle(title, clauses),
      body: { keyword: "picture", shape, arguments: given },
      ruleAt: {
        start: shape.at.start,
        end: Math.max(shape.at.end, ...given.map((one) => one.rule.at.end)),
      },
    }),
  ),
  use: reader(
    () => grammar.use(),
    ({ name, edition, clauses }) => ({
      name,
      clauses,
      body: { keyword: "use", ...(edition !== undefined ? { edition } : {}) },
    }),
  ),
  drop: reader(
    () => grammar.drop(),
    ({ what, target, rule, clauses }) => ({
      clauses,
      body: {
        keyword: "drop",
        what: what === "refer" ? "stop" : what,
        ...(target ? { target } : {}),
        ...(rule ? { rule } : {}),
      },
      ...(target ? { ruleAt: target.at } : rule ? { ruleAt: rule.at } : {}),
    }),
  ),
  worked: reader(
    () => grammar.worked(),
    ({ name, title, given, gives, clauses }) => ({
      name,
      clauses: withTitle(title, clauses),
      body: { keyword: "worked", given, gives },
      ...overAll([...given, ...gives]),
    }),
  ),
};
