// Evaluates a worked example and compares what it expects with the book's values.
import { writeValue } from "../../../core/format.ts";
import { reasonText } from "../../../core/reason-words.ts";
import type { Shown, WorkedView } from "../../../core/view.ts";
import type { Entry } from "../../language/check/book.ts";
import type { CheckedExpectation } from "../../language/check/worked.ts";
import type { Fault } from "../../language/syntax/tree.ts";
import { isKnown } from "./frame.ts";
import { oneLine, shown, shownOf } from "./show.ts";
import type { Evaluation } from "./evaluate.ts";
import { jobStatus, type Turning } from "./status.ts";

/** `turning`: what the tolerances of the example's answers leave open. */
export function checkWorkedExample(
  job: Evaluation,
  entry: Entry,
  turning: Turning | undefined,
): { readonly view: WorkedView; readonly faults: readonly Fault[] } {
  const { statement } = entry;
  const worked = entry.checked.worked!;
  const name = statement.name!.text;
  const faults: Fault[] = [];
  for (const [ask, given] of job.given) {
    if (given.is !== "unusable") continue;
    const at =
      statement.body.keyword === "worked"
        ? statement.body.given.find((one) => one.name.text === ask)?.at
        : undefined;
    faults.push({
      code: "worked/answer",
      at: at ?? statement.name!.at,
      facts: { example: name, says: reasonText(given.reason) },
    });
  }
  const expects = worked.expects.map((one) => ({ ...compare(job, one, turning), at: one.at }));
  // An example with a fault of its own has its finding. What follows from the fault is left out.
  const sound = entry.checked.faults.every((fault) => fault.code === "worked/nothing");
  if (faults.length === 0 && sound)
    for (const { holds, at, what, wanted, got } of expects)
      if (!holds) faults.push({ code: "worked/fails", at, facts: { example: name, what, wanted, got } });
  for (const promise of job.plan.promises) {
    if (job.frame.num[promise.when] !== 0) continue;
    const own = promise.entry.statement;
    faults.push({
      code: "promise/broken",
      at: statement.name!.at,
      facts: {
        example: name,
        rule: own.ruleAt ? oneLine(own.text.slice(own.ruleAt.start, own.ruleAt.end)) : "",
        also: [{ absolute: promise.entry.piece.at, says: "the promise" }],
      },
    });
  }
  const title = (statement.clauses.title?.pieces ?? []).filter((piece) => typeof piece === "string").join("");
  return {
    view: {
      name,
      title,
      answers: worked.answers,
      passes: sound && faults.length === 0 && expects.every((one) => one.holds),
      expects: expects.map(({ what, wanted, got, holds }) => ({ what, wanted, got, holds })),
    },
    faults,
  };
}

type Expected<Is extends CheckedExpectation["is"]> = Extract<CheckedExpectation, { is: Is }>;

interface Compared {
  readonly what: string;
  readonly wanted: string;
  readonly got: string;
  readonly holds: boolean;
}

function compare(job: Evaluation, one: CheckedExpectation, turning: Turning | undefined): Compared {
  switch (one.is) {
    case "state": {
      const { state } = jobStatus(job, turning);
      return { what: "the job to be", wanted: one.state, got: state, holds: state === one.state };
    }
    case "line":
      return compareLine(job, one);
    case "without":
      return compareMissing(job, one);
    case "text":
      return compareText(job, one);
    case "value":
      return compareValue(job, one);
  }
}

function compareLine(job: Evaluation, one: Expected<"line">): Compared {
  const value = appliesAs(job, one.what, one.name.text);
  return {
    what: `${one.what} ${one.name.text}`,
    wanted: one.wanted ? "to apply" : "not to apply",
    got: value === 1 ? "it applies" : value === 0 ? "it does not" : "it is not known",
    holds: value === (one.wanted ? 1 : 0),
  };
}

/** A value that the example expects to be unknown or impossible. */
function compareMissing(job: Evaluation, one: Expected<"without">): Compared {
  const value = shownAs(job, one.name, one.column);
  const got =
    value === undefined
      ? "nothing"
      : value.state === "impossible"
        ? `impossible: ${value.reason ?? value.text}`
        : value.text;
  const what = value?.name ?? one.name;
  return { what, wanted: `to be ${one.wanted}`, got, holds: value?.state === one.wanted };
}

function compareText(job: Evaluation, one: Expected<"text">): Compared {
  const value = shownAs(job, one.name, one.column);
  const reads = value?.state === "known";
  return {
    what: value?.name ?? one.name,
    wanted: `to read “${one.wanted}”`,
    got: value === undefined ? "nothing" : reads ? `“${value.text}”` : value.text,
    holds: reads && value.text === one.wanted,
  };
}

function compareValue(job: Evaluation, one: Expected<"value">): Compared {
  const { plan, frame } = job;
  const entry = plan.checked.entries[plan.checked.byName.get(one.name)!]!;
  const block = plan.byId.get(entry.id)!;
  const value = block.values[one.column ?? 0];
  const type = entry.checked.signature?.type;
  const column = one.column === undefined || type?.is !== "row" ? "" : type.columns[one.column]!.name;
  const what = one.column === undefined ? one.name : `${one.name}.${column}`;
  const wanted = one.written;
  if (value === undefined) return { what, wanted, got: "nothing", holds: false };
  if (value.type.is === "kept") {
    const rows = frame.candidateRows[block.slot];
    const words = rows ? [...rows.values].filter((_, r) => rows.left[r]).map((at) => frame.num[at]!) : [];
    const holds = words.length > 0 && words.every((word) => word === one.value);
    return { what, wanted, got: shownOf(job, block, "book")[0]!.text, holds };
  }
  const number = frame.num[value.register]!;
  const holds = isKnown(frame, value.register) && Math.abs(number - one.value) <= one.slack * (1 + 1e-9);
  const { text } = shown(job, value, what, "book");
  // Two values that differ but look alike are told apart, or the finding would read "expects 5, gives 5".
  const alike =
    !holds && isKnown(frame, value.register) && text === writeValue(one.value, value.type, value.unit);
  const got = alike ? `${text} (off by ${(number - one.value).toPrecision(3)} in SI units)` : text;
  return { what, wanted, got, holds };
}

/** The value of that name, or of a column of it, as it is shown. */
function shownAs(job: Evaluation, name: string, column: number | undefined): Shown | undefined {
  const { plan } = job;
  const entry = plan.checked.entries[plan.checked.byName.get(name)!]!;
  return shownOf(job, plan.byId.get(entry.id)!, "book")[column === undefined ? 0 : column + 1];
}

/** 1 where a line of that name applies, 0 where none does. A line that a layer replaces is in two books. */
function appliesAs({ plan, frame }: Evaluation, what: string, name: string): number {
  const block = plan.byId.get(`${what} ${name}`);
  const beneath =
    plan.checked.composition === undefined
      ? []
      : plan.checked.entries
          .filter(
            (entry) =>
              entry.from?.beneath === name &&
              entry.from.hidden === undefined &&
              entry.statement.body.keyword === what,
          )
          .map((entry) => plan.byId.get(entry.id)!);
  const values = [...(block === undefined ? [] : [block]), ...beneath].map((one) => frame.num[one.when]!);
  // A line that a layer drops never applies.
  if (values.length === 0) return plan.checked.composition?.dropped.has(`${what} ${name}`) ? 0 : Number.NaN;
  return values.includes(1) ? 1 : values.every((value) => value === 0) ? 0 : Number.NaN;
}
