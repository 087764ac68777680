// What `bevelbook check --prove` adds: what is proved of the book, and how its examples guard it, within a
// time.
import { mutationTestOf, verificationOf } from "../../engine/index.ts";
import type { Book, Portioned } from "../../engine/index.ts";
import { answerInWords } from "../../core/answer-words.ts";
import type { Answers, GoalView, MutationTestView, SettingsView, VerificationView } from "../../core/view.ts";
import { lineWords, placeIn } from "./book-resolver.ts";

/** Boxes of jobs looked at between two looks at the clock. */
const boxesAtATime = 200;

export interface Proved {
  readonly standing: VerificationView;
  readonly guard?: MutationTestView;
}

/**
 * Works until everything is settled or the seconds are over. The guard gets the time that the proof leaves,
 * and tries at least one change.
 */
export function proveBook(
  book: Book,
  seconds: number,
  withGuard: boolean,
  progress: (says: string) => void,
  now: () => number = () => performance.now(),
): Proved {
  const end = now() + seconds * 1000;
  const standing = until(verificationOf(book), boxesAtATime, end, now, (view) =>
    progress(`settled ${view.settled} of ${view.all}`),
  );
  if (!withGuard) return { standing };
  return {
    standing,
    guard: until(mutationTestOf(book), 1, end, now, (view) =>
      progress(`tried ${view.tried} of ${view.all} small changes`),
    ),
  };
}

/** Reports after each second. */
function until<View>(
  proof: Portioned<View>,
  amount: number,
  end: number,
  now: () => number,
  report: (view: View) => void,
): View {
  let reported = now();
  while (!proof.advance(amount, () => now() >= end) && now() < end) {
    if (now() - reported < 1000) continue;
    reported = now();
    report(proof.view());
  }
  return proof.view();
}

/** Whether everything that is promised and owed is proved. */
export const allProved = (standing: VerificationView): boolean =>
  standing.goals.every((goal) => goal.verdict === "proved");

/** As data, with the line of each place. */
export function provedData(book: Book, { standing, guard }: Proved) {
  const placed = <One extends { readonly at: { readonly start: number } }>(one: One) => ({
    ...one,
    ...placeIn(book, one.at.start),
  });
  return {
    standing: {
      done: standing.done,
      settled: standing.settled,
      all: standing.all,
      holds: allProved(standing),
      goals: standing.goals,
      never: standing.never.map(placed),
    },
    ...(guard
      ? {
          guard: {
            done: guard.done,
            tried: guard.tried,
            all: guard.all,
            noticed: guard.noticed,
            unreached: guard.unreached.map(placed),
            unnoticed: guard.unnoticed.map(placed),
          },
        }
      : {}),
  };
}

/**
 * As lines of text: the promises one by one, what every book owes in one line a sort unless it fails, and the
 * guard.
 */
export function provedText(book: Book, { standing, guard }: Proved): string {
  const promises = standing.goals.filter((goal) => goal.sort === "promise");
  const out = [
    "",
    "What the book promises",
    ...(promises.length === 0 ? ["  nothing"] : promises.flatMap(goalLines)),
  ];
  out.push("", "What every book owes");
  for (const [sort, says] of owed) {
    const goals = standing.goals.filter((goal) => goal.sort === sort);
    const left = goals.filter((goal) => goal.verdict !== "proved");
    if (goals.length > 0)
      out.push(
        `  ${says}: ${goals.length - left.length} of ${goals.length} proved`,
        ...left.flatMap(goalLines),
      );
  }
  if (standing.never.length > 0)
    out.push(
      "",
      "What no job ever reaches",
      ...standing.never.map((one) => `  ${lineWords(book, one.at.start)}: ${one.says}`),
    );
  if (guard) out.push("", ...guardLines(book, guard));
  out.push("", sentence(standing));
  return out.join("\n");
}

const owed: readonly (readonly [GoalView["sort"], string])[] = [
  ["card", "every job has an answer"],
  ["condition", "whether a line applies is never left open"],
  ["numbers", "every number shown has a value"],
  ["chart", "charts looked up by worked-out figures have a row"],
];

function goalLines(goal: GoalView): readonly string[] {
  const lines = [`  ${wordFor(goal).padEnd(11)} ${goal.says}`];
  if (goal.settings) lines.push(...settingsLines(goal.settings));
  if (goal.job) lines.push(`              by the job: ${jobLine(goal.job)}`);
  if (goal.gives) lines.push(`              there ${goal.gives}`);
  if (goal.verdict === "not settled" || goal.verdict === "looking") {
    if (goal.share !== undefined) {
      const percent = goal.share < 0.0001 ? "less than 0.01" : Number((goal.share * 100).toPrecision(2));
      lines.push(`              open for ${percent} % of all jobs`);
    }
    if (goal.rest && Object.keys(goal.rest).length > 0)
      lines.push(`              the largest part: ${jobLine(goal.rest)}`);
    lines.push(`              ${boundWords(goal)}`);
  }
  return lines;
}

/** How a proved promise stands with the dials turned. */
function settingsLines({ verdict, dials = {}, job = {}, bound }: SettingsView): readonly string[] {
  switch (verdict) {
    case "proved":
      return ["              holds for every setting"];
    case "broken":
      return [
        `              holds as set; breaks at ${settingWords(dials)}`,
        `              there by the job: ${jobLine(job)}`,
      ];
    case "not settled":
    case "looking":
      return [
        bound === "chart rows"
          ? "              for other settings not settled: rows of a chart end at a dial"
          : "              for other settings not settled",
      ];
  }
}

/** "house-taper = 1:15 and wage = 60 EUR/h" */
const settingWords = (dials: Answers): string =>
  Object.entries(dials)
    .map(([dial, value]) => `${dial} = ${answerInWords(value)}`)
    .join(" and ");

/** Which limit kept it from being settled. */
function boundWords({ bound }: GoalView): string {
  switch (bound) {
    case "boxes":
      return "as much was looked at as one promise may cost: more seconds do not help";
    case "digits":
      return "what is left is smaller than any answer: more seconds do not help";
    case undefined:
      return "the time was over: more seconds may settle it (--seconds)";
  }
}

/** What there was no time for is not settled: only a screen goes on looking. */
function wordFor(goal: GoalView): string {
  switch (goal.verdict) {
    case "proved":
      return "proved";
    case "broken":
      return "BROKEN";
    case "not settled":
    case "looking":
      return "not settled";
  }
}

const jobLine = (job: Answers): string =>
  Object.keys(job).length === 0
    ? "any"
    : Object.entries(job)
        .map(([ask, answer]) => `${ask} ${answerInWords(answer)}`)
        .join(", ");

function guardLines(book: Book, guard: MutationTestView): readonly string[] {
  const percent = guard.tried === 0 ? 100 : Math.floor((guard.noticed / guard.tried) * 1000) / 10;
  return [
    "How the worked examples guard the book",
    `  ${guard.tried} of ${guard.all} small changes tried, ${guard.noticed} noticed (${percent} %)`,
    ...guard.unnoticed.flatMap((one) => [
      `  ${lineWords(book, one.at.start)}: not noticed: ${one.says}`,
      ...(one.job ? [`      told apart by: ${jobLine(one.job)}`] : []),
    ]),
    ...guard.unreached.map((one) => `  ${lineWords(book, one.at.start)}: ${one.says}`),
  ];
}

function sentence(standing: VerificationView): string {
  const broken = standing.goals.filter((goal) => goal.verdict === "broken").length;
  const open = standing.goals.filter(
    (goal) => goal.verdict === "not settled" || goal.verdict === "looking",
  ).length;
  if (broken === 0 && open === 0)
    return (
      `All ${standing.goals.length} are proved for every job: each ask answered in its range, ` +
      "left blank or answered that one cannot tell. " +
      "This is what the book promises, and not more."
    );
  const parts = [
    broken > 0 ? `${broken} broken` : "",
    open > 0 ? `${open} not settled` : "",
    `${standing.goals.length - broken - open} of ${standing.goals.length} proved`,
  ];
  return `${parts.filter((part) => part !== "").join(", ")}.`;
}
