// What was proved against a book, as findings among the others: so the text, the sheet and the charts mark it
// in its place.
import type { Span } from "../../../core/span.ts";
import type { Finding, GoalView, Row, VerificationView } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Proving } from "../../client/engine/proof-messages.ts";
import { jobInWords, shareInWords } from "./standing-words.ts";

/**
 * The snapshot with its broken promises, open promises and rows never reached; as it was while no standing of
 * this very text is known.
 */
export function withProved(snapshot: Snapshot, standing: Proving<VerificationView> | undefined): Snapshot {
  if (standing === undefined || standing.text !== snapshot.text) return snapshot;
  const proved = provedFindings(standing.view, snapshot.rows);
  if (proved.length === 0) return snapshot;
  const findings = [...snapshot.findings, ...proved].sort(
    (a, b) => a.at.start - b.at.start || a.at.end - b.at.end,
  );
  const rows = snapshot.rows.map((row) => {
    const own = proved.filter((finding) => finding.at.start >= row.at.start && finding.at.end <= row.at.end);
    if (own.length === 0) return row;
    return {
      ...row,
      errors: row.errors + own.filter((one) => one.weight === "error").length,
      warnings: row.warnings + own.filter((one) => one.weight === "warning").length,
    };
  });
  return { ...snapshot, findings, rows };
}

/** In the order of the record: goals that are broken or open, then what no job reaches. */
export function provedFindings(view: VerificationView, rows: readonly Row[]): readonly Finding[] {
  const places = new Map(rows.map((row) => [row.id, markOf(row)]));
  const first = rows[0] ? markOf(rows[0]) : { start: 0, end: 0 };
  return [
    ...view.goals.flatMap((goal): Finding[] => {
      const found = goalFinding(goal, places.get(goal.id) ?? first);
      return found ? [found] : [];
    }),
    ...view.never.map(
      (one): Finding => ({
        code: "rule/never",
        weight: "warning",
        at: one.at,
        says: one.says,
        also: [],
        repairs: [],
      }),
    ),
  ];
}

/** A witness stands on one line under its row; a longer one is read in the record. In letters. */
const longestWitness = 80;

function goalFinding(goal: GoalView, at: Span): Finding | undefined {
  switch (goal.verdict) {
    case "proved":
    case "looking":
      return undefined;
    case "broken": {
      const job = goal.job ? jobInWords(goal.job) : "";
      const long = job.length > longestWitness;
      const gives = goal.gives ? ` There ${goal.gives}.` : "";
      return {
        code: "promise/broken",
        weight: "error",
        at,
        says:
          (goal.sort === "promise"
            ? "This promise is broken by a job"
            : `Not so for every job: ${goal.says}`) +
          `.${gives}` +
          (long ? " The job stands under Standing, to be laid alongside." : ""),
        also: [],
        repairs: [],
        ...(job !== "" && !long ? { witness: job } : {}),
      };
    }
    case "not settled": {
      const rest = goal.rest ? jobInWords(goal.rest) : "";
      const share = goal.share === undefined ? "" : ` It is open for ${shareInWords(goal.share)}.`;
      return {
        code: "promise/open",
        weight: "warning",
        at,
        says:
          (goal.sort === "promise"
            ? "Whether this promise is kept is not settled"
            : `Not settled: ${goal.says}`) + `.${share}`,
        also: [],
        repairs: [],
        ...(rest !== "" && rest.length <= longestWitness ? { witness: rest } : {}),
      };
    }
  }
}

/** What is hatched: the name or the rule, not a whole statement of many lines. */
function markOf(row: Row): Span {
  return (
    row.ruleAt ??
    row.nameAt ?? { start: row.at.start, end: Math.min(row.at.end, row.at.start + row.keyword.length) }
  );
}

/** Rows of a chart that no job reaches, by their place in the chart. */
export function neverRows(
  view: VerificationView | undefined,
  chart: string,
  rows: readonly { readonly at: Span }[],
): readonly number[] {
  const never = view?.never.filter((one) => one.id === `chart ${chart}`) ?? [];
  return rows.flatMap((row, place) =>
    never.some((one) => one.at.start < row.at.end && one.at.end > row.at.start) ? [place] : [],
  );
}
