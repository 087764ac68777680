// All jobs of a small book as formulas: what each ask may be, and a case of the solver turned back into typed
// answers.
import { type Fraction, fraction, over, times, whole } from "../engine/analysis/support/fraction.ts";
import { type Typed, typedAs } from "./answers.ts";
import { logicOf } from "./logic.ts";
import { type Answer, type Answering, type Meaning, meaningOf } from "./meaning.ts";
import { Formulas, type Term } from "./smt.ts";
import { type Ask, type SmallBook, asksOf } from "./syntax.ts";

/** `answered`: every ask is; `partly`: any ask may be blank or answered that one cannot tell. */
export type Jobs = "answered" | "partly";

export interface AllJobs {
  readonly formulas: Formulas;
  readonly meaning: Meaning<Term, Term>;
  /** Names to ask the solver for. */
  readonly names: readonly string[];
}

export function allJobs(book: SmallBook, jobs: Jobs): AllJobs {
  const formulas = new Formulas();
  const states = new Map<string, Term>();
  const variables = new Map<string, Term>();
  for (const ask of asksOf(book)) {
    variables.set(ask.name, variableOf(ask, formulas));
    if (jobs === "answered") continue;
    const state = formulas.variable(`${ask.name}!`, "Int");
    formulas.lines.push(`(assert (<= 0 ${state.text} 2))`);
    states.set(ask.name, state);
  }
  const logic = logicOf(formulas);
  const answer: Answering<Term, Term> = (name, fallback) => {
    const variable = variables.get(name)!;
    const state = states.get(name);
    const truth = variable.sort === "Bool";
    if (state === undefined)
      return truth ? { truth: logic.sure(variable) } : { amount: logic.sure(variable) };
    const given: Term = { text: `(= ${state.text} 0)`, sort: "Bool" };
    const told: Term = { text: `(= ${state.text} 2)`, sort: "Bool" };
    return stated(formulas, variable, given, told, fallback);
  };
  const meaning = meaningOf(book, formulas, answer);
  return { formulas, meaning, names: [...variables.keys(), ...[...states.keys()].map((name) => `${name}!`)] };
}

function stated(
  on: Formulas,
  variable: Term,
  given: Term,
  told: Term,
  fallback: Answer<Term, Term> | undefined,
): Answer<Term, Term> {
  const other = fallback === undefined ? undefined : "amount" in fallback ? fallback.amount : fallback.truth;
  const known = on.or(given, on.and(told, other?.known ?? on.no));
  const impossible = on.and(told, other?.impossible ?? on.no);
  if (variable.sort === "Bool")
    return {
      truth: {
        known,
        impossible,
        value: other === undefined ? variable : on.pickTruth(given, variable, other.value),
      },
    };
  const value = other === undefined ? variable : on.pick(given, variable, other.value);
  return { amount: { known, impossible, value } };
}

function variableOf(ask: Ask, formulas: Formulas): Term {
  const { answered } = ask;
  switch (answered.is) {
    case "truth":
      return formulas.variable(ask.name, "Bool");
    case "kind": {
      const one = formulas.variable(ask.name, "Int");
      formulas.lines.push(`(assert (<= 0 ${one.text} ${answered.kind.words.length - 1}))`);
      return one;
    }
    case "count": {
      const one = formulas.variable(ask.name, "Int");
      formulas.lines.push(`(assert (<= ${answered.low.top} ${one.text} ${answered.high.top}))`);
      return { text: `(to_real ${one.text})`, sort: "Real" };
    }
    case "length": {
      const one = formulas.variable(ask.name, "Real");
      const unit = answered.unit === "inch" ? fraction(254n, 10n) : whole(1n);
      const end = (x: Fraction) => formulas.number(times(x, unit)).text;
      formulas.lines.push(`(assert (<= ${end(answered.low)} ${one.text} ${end(answered.high)}))`);
      return one;
    }
  }
}

/** A number as the solver writes it: `2.0`, `(- 2.0)`, `(/ 1.0 3.0)`, `1.4142?`. */
function solvedNumber(text: string): Fraction {
  const inner = /^\((-|\/) (.*)\)$/.exec(text.trim());
  if (inner === null) {
    const [, digits, after = ""] =
      /^(\d+)(?:\.(\d+))?\??$/.exec(text.trim()) ??
      (() => {
        throw new Error(`The solver gives ${text}.`);
      })();
    return fraction(BigInt(digits! + after), 10n ** BigInt(after.length));
  }
  const [, sign, rest] = inner;
  if (sign === "-") return times(solvedNumber(rest!), whole(-1n));
  const cut = rest!.startsWith("(") ? rest!.indexOf(")") + 1 : rest!.indexOf(" ");
  return over(solvedNumber(rest!.slice(0, cut)), solvedNumber(rest!.slice(cut + 1)));
}

/** A case of the solver as a technician would have typed it. */
export function jobOf(book: SmallBook, values: ReadonlyMap<string, string>): Typed {
  const typed: Record<string, string> = {};
  for (const ask of asksOf(book)) {
    const state = values.get(`${ask.name}!`) ?? "0";
    if (state === "2") typed[ask.name] = "unknown";
    if (state !== "0") continue;
    const value = values.get(ask.name)!;
    typed[ask.name] = typedAs(ask, ask.answered.is === "truth" ? value === "true" : solvedNumber(value));
  }
  return typed;
}
