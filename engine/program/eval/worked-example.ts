// Works a worked example and holds what it expects against what the book gives.
import { writeValue } from "../../../core/format.ts";
import { reasonText } from "../../../core/reason-words.ts";
import type { WorkedView } from "../../../core/view.ts";
import type { Entry } from "../../language/check/book.ts";
import type { CheckedExpectation } from "../../language/check/worked.ts";
import type { Fault } from "../../language/syntax/tree.ts";
import { isKnown } from "./frame.ts";
import { oneLine, shown, shownOf } from "./show.ts";
import type { Evaluation } from "./evaluate.ts";
import { jobStatus } from "./status.ts";

export function checkWorkedExample(
  job: Evaluation,
  entry: Entry,
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
  const expects = worked.expects.map((one) => ({ ...compare(job, one), at: one.at }));
  // An example that is itself written wrongly has its finding; what follows from that is not told as well.
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function compare(
  job: Evaluation,
  one: CheckedExpectation,
): { what: string; wanted: string; got: string; holds: boolean } {
  const { plan, frame } = job;
  switch (one.is) {
    case "state": {
      const { state } = jobStatus(job);
      return { what: "the job to be", wanted: one.state, got: state, holds: state === one.state };
    }
    case "line": {
      const value = appliesAs(job, one.what, one.name.text);
      const got = value === 1 ? "it applies" : value === 0 ? "it does not" : "it is not known";
      return {
        what: `${one.what} ${one.name.text}`,
        wanted: one.wanted ? "to apply" : "not to apply",
        got,
        holds: value === (one.wanted ? 1 : 0),
      };
    }
    case "without": {
      const entry = plan.checked.entries[plan.checked.byName.get(one.name)!]!;
      const all = shownOf(job, plan.byId.get(entry.id)!, "book");
      const value = all[one.column === undefined ? 0 : one.column + 1];
      const what = value?.name ?? one.name;
      const got =
        value === undefined
          ? "nothing"
          : value.state === "impossible"
            ? `impossible: ${value.reason ?? value.text}`
            : value.text;
      return { what, wanted: `to be ${one.wanted}`, got, holds: value?.state === one.wanted };
    }
    case "text": {
      const entry = plan.checked.entries[plan.checked.byName.get(one.name)!]!;
      const value = shownOf(job, plan.byId.get(entry.id)!, "book")[
        one.column === undefined ? 0 : one.column + 1
      ];
      const reads = value?.state === "known";
      return {
        what: value?.name ?? one.name,
        wanted: `to read “${one.wanted}”`,
        got: value === undefined ? "nothing" : reads ? `“${value.text}”` : value.text,
        holds: reads && value.text === one.wanted,
      };
    }
    case "value": {
      const entry = plan.checked.entries[plan.checked.byName.get(one.name)!]!;
      const block = plan.byId.get(entry.id)!;
      const value = block.values[one.column ?? 0];
      const label =
        one.column === undefined
          ? one.name
          : `${one.name}.${entry.checked.signature?.type.is === "row" ? entry.checked.signature.type.columns[one.column]!.name : ""}`;
      if (value === undefined) return { what: label, wanted: one.written, got: "nothing", holds: false };
      if (value.type.is === "kept") {
        const kept = frame.candidateRows[block.slot];
        const words = kept ? [...kept.values].filter((_, r) => kept.left[r]).map((at) => frame.num[at]!) : [];
        return {
          what: label,
          wanted: one.written,
          got: shownOf(job, block, "book")[0]!.text,
          holds: words.length > 0 && words.every((word) => word === one.value),
        };
      }
      const number = frame.num[value.register]!;
      // A value that is shown alike but differs is written out in full, or the finding would read "expects 5,
      // gives 5".
      const holds = isKnown(frame, value.register) && Math.abs(number - one.value) <= one.slack * (1 + 1e-9);
      const text = shown(job, value, label, "book").text;
      const exact =
        !holds && isKnown(frame, value.register) && text === writeValue(one.value, value.type, value.unit)
          ? `${text} (off by ${(number - one.value).toPrecision(3)} in SI units)`
          : text;
      return { what: label, wanted: one.written, got: exact, holds };
    }
  }
}

/**
 * 1 where a line of that name applies, 0 where none does: a line replaced under a condition stands in two
 * books.
 */
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
  // What a layer leaves out never applies.
  if (values.length === 0) return plan.checked.composition?.dropped.has(`${what} ${name}`) ? 0 : Number.NaN;
  return values.includes(1) ? 1 : values.every((value) => value === 0) ? 0 : Number.NaN;
}
