// How a book stands, in words: what the lead may say, and the lines of the record. No drawing here.
import { answerInWords } from "../../../core/answer-words.ts";
import type {
  Answers,
  Finding,
  GoalView,
  MutationTestView,
  Row,
  SettingsView,
  VerificationView,
  WorkedView,
} from "../../../core/view.ts";

export type Verdict = GoalView["verdict"];

/** What stands on the big stamp. `waiting` while nothing can be said yet. */
export type Overall = "proved" | "broken" | "open" | "waiting";

export interface Said {
  readonly overall: Overall;
  /** The first sentence: whether the lead may say it. */
  readonly first: string;
  /** What that rests on, or what is in its way. */
  readonly then: string;
}

/** The sentence in question, as the lead would say it. */
export const claim = "Every job has an answer by this standard, and every promise that it makes is kept.";

/** Faults of the book and its charts: with them nothing can be proved. */
function faultsInTheWay(findings: readonly Finding[]): Said | undefined {
  const faults = findings.filter((finding) => finding.weight === "error" && !spokenOf(finding)).length;
  const charts = findings.filter(inCharts).length;
  if (faults > 0)
    return {
      overall: "broken",
      first: "It may not be said.",
      then:
        `The book has ${count(faults, "fault", "faults")}. What rests on them cannot ` +
        "be worked, so nothing is proved of it.",
    };
  if (charts > 0)
    return {
      overall: "broken",
      first: "It may not be said.",
      then:
        `The charts have ${count(charts, "hole or overlap", "holes and overlaps")}: ` +
        "there are jobs for which they have no row, or two.",
    };
  return undefined;
}

/**
 * Whether the claim may be made, in careful words. `view` is undefined before the first word of the proof.
 */
export function mayBeSaid(
  view: VerificationView | undefined,
  findings: readonly Finding[],
  worked: readonly WorkedView[],
): Said {
  const inTheWay = faultsInTheWay(findings);
  if (inTheWay !== undefined) return inTheWay;
  if (view === undefined)
    return {
      overall: "waiting",
      first: "It is not known yet.",
      then: "Nothing of this book has been proved so far.",
    };
  const of = (verdict: Verdict): readonly GoalView[] => view.goals.filter((goal) => goal.verdict === verdict);
  const [broken, open, looking] = [of("broken"), of("not settled"), of("looking")];
  const failing = worked.filter((one) => !one.passes).length;
  const examples =
    failing === 0
      ? ""
      : ` ${count(failing, "worked example does", "worked examples do")} not come out as expected.`;
  if (broken.length > 0)
    return {
      overall: "broken",
      first: "It may not be said.",
      then: `${brokenWords(broken)} A job that shows it stands below.${examples}`,
    };
  if (looking.length > 0)
    return {
      overall: "waiting",
      first: "It cannot be said yet.",
      then:
        `${count(looking.length, "thing is", "things are")} still being looked at. ` +
        `Nothing is broken so far.${examples}`,
    };
  if (open.length > 0)
    return {
      overall: "open",
      first: "It cannot be said of every job.",
      then:
        `${count(open.length, "thing is", "things are")} not settled. For the other ` +
        `jobs everything is proved.${examples}`,
    };
  const promises = view.goals.filter((goal) => goal.sort === "promise").length;
  if (promises === 0)
    return {
      overall: "open",
      first: "Half of it may be said: every job has an answer.",
      then:
        `This is proved for every answer in range, left blank, or “cannot tell”. The book promises ` +
        `nothing, so nothing is proved of safety. Write a promise for what must hold.${examples}`,
    };
  if (failing > 0)
    return { overall: "open", first: "It is proved, but the examples disagree.", then: examples.trim() };
  return {
    overall: "proved",
    first: "It may be said.",
    then:
      `Proved for every answer in range, left blank, or “cannot tell”: every job gets work to do or is ` +
      `refused by a stop, and ${promises === 1 ? "the promise is" : `all ${promises} promises are`} kept. ` +
      `That is what the book promises, and no more. The material’s own label, local codes and licensed ` +
      `practice come first.`,
  };
}

function brokenWords(broken: readonly GoalView[]): string {
  const promises = broken.filter((goal) => goal.sort === "promise").length;
  const owed = broken.length - promises;
  const parts = [
    promises > 0 ? `${count(promises, "promise is", "promises are")} broken` : "",
    owed > 0
      ? `${count(owed, "thing", "things")} that every book owes ${owed === 1 ? "is" : "are"} not kept`
      : "",
  ].filter((part) => part !== "");
  return `${parts.join(", and ")}.`;
}

/** A hole or an overlap of a chart. */
export const inCharts = (finding: Finding): boolean =>
  finding.code === "chart/hole" || finding.code === "chart/overlap";

/**
 * Findings that the record tells elsewhere: in its parts about charts, promises and examples. The rules
 * themselves can all be worked.
 */
export const spokenOf = (finding: Finding): boolean =>
  inCharts(finding) || finding.code === "worked/fails" || finding.code.startsWith("promise/");

/** What every book owes, by sort, in the order of the record. */
export const owedSorts = ["card", "condition", "numbers", "chart"] as const;
export type Owed = (typeof owedSorts)[number];

/** The heading of a sort of debt, while not all of it is proved. */
export function owedHeading(sort: Owed): string {
  switch (sort) {
    case "card":
      return "Every job has an answer";
    case "condition":
      return "Whether a line applies is never left open";
    case "numbers":
      return "Every number shown has a value";
    case "chart":
      return "Every chart that is looked into has a row";
  }
}

/** One line for a sort of which all is proved. */
export function owedProved(sort: Owed, many: number): string {
  switch (sort) {
    case "card":
      return "Every job is refused by a stop or has work to do.";
    case "condition":
      return many === 1
        ? "The 1 condition has a value for every job."
        : `All ${many} conditions have a value for every job.`;
    case "numbers":
      return many === 1
        ? "The 1 line with numbers has them whenever it applies."
        : `All ${many} lines with numbers have them whenever they apply.`;
    case "chart":
      return many === 1
        ? "The 1 chart that is looked up by worked-out figures has a row for every job."
        : `All ${many} charts that are looked up by worked-out figures have a row for every job.`;
  }
}

export function verdictWord(verdict: Verdict): string {
  switch (verdict) {
    case "proved":
      return "Proved";
    case "broken":
      return "Broken";
    case "not settled":
      return "Not settled";
    case "looking":
      return "Looking";
  }
}

/** A job's answers on one line: "damage through, thickness 3.2 mm". */
export const jobInWords = (job: Answers): string =>
  Object.entries(job)
    .map(([ask, answer]) => `${ask} ${answerInWords(answer)}`)
    .join(", ");

/** For lines that come right with the charts that they use. */
export const followWords = (charts: number, lines: number): string =>
  charts === 1
    ? `${count(lines, "line is", "lines are")} broken only because a chart has a hole or an overlap. ` +
      "Mend the chart first."
    : `${count(lines, "line is", "lines are")} broken only because ${charts} charts ` +
      "have holes or overlaps. Mend the charts first.";

/** A share of all jobs; never 0 or 100 % of something that is neither. */
export function shareInWords(share: number): string {
  if (share >= 1) return "all jobs";
  const percent = share * 100;
  if (percent < 0.01) return "less than 0.01 % of all jobs";
  return (
    (percent >= 10 ? Math.min(99, Math.round(percent)) : Number(percent.toPrecision(2))) + " % of all jobs"
  );
}

/** Noticed of tried, in whole percent, rounded down: 100 % is all of them. */
export const noticedPercent = (guard: Pick<MutationTestView, "noticed" | "tried">): number =>
  guard.tried === 0 ? 100 : Math.floor((guard.noticed / guard.tried) * 100);

/**
 * The proof of an older text, as long as the newer one has no verdicts: its lines without a verdict, so that
 * nothing old is read as if it were of the book as it is now.
 */
export const lookedAtAgain = (view: VerificationView): VerificationView => ({
  ...view,
  done: false,
  settled: 0,
  never: [],
  goals: view.goals.map(({ id, sort, says }) => ({ id, sort, says, verdict: "looking" })),
});

/** What a person calls the row. */
export const rowWords = (row: Pick<Row, "keyword" | "name" | "title" | "id">): string =>
  row.name === undefined ? row.title || row.id : `${row.keyword} ${row.name}`;

/** "1 promise", "3 promises". */
export const count = (many: number, one: string, more: string): string =>
  `${many} ${many === 1 ? one : more}`;

/** How a proved promise stands with the dials turned: "Holds for every setting of the dials." */
export function settingsInWords({ verdict, dials = {}, job = {}, bound }: SettingsView): string {
  const listed = (of: Answers, between: string): string =>
    Object.entries(of)
      .map(([name, value]) => `${name}${between}${answerInWords(value)}`)
      .join(", ");
  switch (verdict) {
    case "proved":
      return "Holds for every setting of the dials.";
    case "broken":
      return `Holds as set. It breaks at ${listed(dials, " = ")}, in the job ${listed(job, " ")}.`;
    case "not settled":
      return bound === "chart rows"
        ? "Holds as set. Other settings are not settled: rows of a chart end at a dial."
        : "Holds as set. Other settings are not settled.";
    case "looking":
      return "Holds as set. Other settings are being looked at.";
  }
}
