// The smallest book that shows a fault: statements are left out and rules are replaced by their parts, for as
// long as the fault stays and the program takes the book.
import { type Subject, subjectOf } from "./judge.ts";
import { type Section, runSection } from "./sections.ts";
import type { Solver } from "./solver.ts";
import type { SmallBook } from "./syntax.ts";
import { type Fault, type Line, newTally } from "./tally.ts";

/** Milliseconds of the processor that one try may be proved for. */
const PATIENCE = 2000;

/** Tries until `until` (a time of the clock); gives the fault of the smallest book found. */
export async function shrunk(
  first: Subject,
  fault: Fault,
  section: Section,
  solver: Solver,
  until: number,
): Promise<Fault> {
  let now = { small: first.small, fault };
  for (let better = true; better; ) {
    better = false;
    for (const small of smaller(now.small)) {
      if (Date.now() > until) return now.fault;
      const found = await faultIn(small, now.fault, section, solver);
      if (found === undefined) continue;
      now = { small, fault: found };
      better = true;
      break;
    }
  }
  return now.fault;
}

/** The same fault in another book; undefined where it is gone, or where the program refuses the book. */
async function faultIn(
  small: SmallBook,
  { line, level, seed }: { readonly line: Line } & Pick<Subject, "level" | "seed">,
  section: Section,
  solver: Solver,
): Promise<Fault | undefined> {
  try {
    const of = subjectOf(small, seed, level);
    const wrong = of.book.findings.filter((one) => one.weight === "error");
    // Some books are made to have these two.
    if (wrong.some((one) => one.code !== "chart/hole" && one.code !== "chart/overlap")) return undefined;
    const tally = newTally();
    await runSection(section, of, tally, solver, PATIENCE);
    return tally.faults.find((one) => one.line === line);
  } catch {
    // A rule that names what has been left out has no meaning.
    return undefined;
  }
}

/** Books that are smaller by one thing, the largest steps first. */
function* smaller({ kinds, statements }: SmallBook): Generator<SmallBook> {
  for (let i = statements.length - 1; i >= 0; i--) {
    yield { kinds, statements: statements.filter((_, at) => at !== i) };
  }
  for (let i = 0; i < kinds.length; i++) yield { kinds: kinds.filter((_, at) => at !== i), statements };
  for (const [i, one] of statements.entries()) {
    for (const simpler of simplerNodes(one)) {
      yield { kinds, statements: statements.map((old, at) => (at === i ? simpler : old)) };
    }
  }
}

type Node = { readonly is: string };
const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && "is" in value;

/**
 * The same thing with one rule in it replaced by one of its parts, one element of a list or one clause left
 * out.
 */
function* simplerNodes<T extends object>(of: T): Generator<T> {
  for (const [key, value] of Object.entries(of)) {
    const put = (made: unknown): T => ({ ...of, [key]: made });
    if (Array.isArray(value)) {
      for (let i = 0; i < value.length && value.length > 1; i++) {
        const fewer = put(value.filter((_, at) => at !== i));
        // A chart that has lost a row may leave a hole.
        yield key === "rows" && "whole" in fewer ? { ...fewer, whole: false } : fewer;
      }
      for (const [i, one] of value.entries()) {
        if (typeof one !== "object" || one === null || typeof one === "bigint") continue;
        for (const simpler of simplerNodes(one as object)) {
          yield put(value.map((old: unknown, at) => (at === i ? simpler : old)));
        }
      }
      continue;
    }
    if (key === "take" || key === "shows" || (key === "when" && "rule" in of)) {
      const { [key as keyof T]: _, ...rest } = of;
      yield rest as T;
    }
    if (typeof value !== "object" || value === null || key === "kind") continue;
    for (const part of isNode(value) ? partsOf(value) : []) yield put(part);
    for (const simpler of simplerNodes(value as object)) yield put(simpler);
  }
}

/** Rules within a rule, at any depth, the outer ones first. */
function partsOf(node: object): Node[] {
  const parts: Node[] = [];
  for (const value of Object.values(node)) {
    for (const one of Array.isArray(value) ? value : [value]) {
      if (typeof one !== "object" || one === null) continue;
      if (isNode(one)) parts.push(one);
      parts.push(...partsOf(one));
    }
  }
  return parts;
}
