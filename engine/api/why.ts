// Why a value of a job came out as it did. Apart from the books and jobs themselves, so that a page can fetch
// it when it is first asked.
import type { TraceView, UnitSystem } from "../../core/view.ts";
import { type Job, internalsOf, evaluationOf } from "./book.ts";
import { traceOf } from "../program/eval/trace.ts";

/**
 * Why a value (figure, chart, ask, dial, list), step, caution or stop came out as it did; `name` may be a row
 * id, or `chart.column`. Undefined if the book has no such thing.
 */
export function why(
  job: Job,
  name: string,
  depth: "deciding" | "full",
  units: UnitSystem = "book",
): TraceView | undefined {
  const evaluation = evaluationOf(job);
  const { checked, plan } =
    evaluation.plan === internalsOf(job.book).plan
      ? { checked: evaluation.plan.checked, plan: evaluation.plan }
      : internalsOf(job.book);
  if (plan.byId.get(name)?.entry.statement !== undefined)
    return traceOf(evaluation, name, undefined, depth, units);
  const [base, column] = name.split(".");
  for (const key of [base!, ...["step", "caution", "stop"].map((word) => `${word} ${name}`)]) {
    const at = checked.byName.get(key);
    if (at === undefined) continue;
    const entry = checked.entries[at]!;
    const type = entry.checked.signature?.type;
    const index =
      column !== undefined && type?.is === "row" ? type.columns.findIndex((one) => one.name === column) : -1;
    return traceOf(evaluation, entry.id, index < 0 ? undefined : index, depth, units);
  }
  return undefined;
}
