// bevelbook weigh: two books, or two editions of one, compared by rule and by what they do to jobs.
import { compareRules, compareBooks } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";
import type { ComparisonView, ComparedOutput } from "../../core/view.ts";
import { SHELF_SAYS, readBookWithOthers, shelfOption, withEdition } from "./book-resolver.ts";
import { CallError, type Command, type Io, type Options } from "./call.ts";
import { asTyped, counted, hasErrors, print, printJson, readText } from "./call.ts";

/** Jobs compared between two looks at the clock. */
const atATime = 10;
/** Progress is reported after so many jobs, and after each second. */
const reportEvery = 1000;
/** Jobs written out in the text; --json has them all. */
const mostShown = 12;

export const weighCommand: Command = {
  usage: "OLD NEW [--jobs FILE] [--spread N] [--seed N] [--all] [--shelf FOLDER] [--json]",
  says:
    "Compares two books by rule, in words, and by effect: their worked examples, the jobs of a file and a " +
    "made-up spread are worked by both, and each output that differs is told with the rule change that " +
    `made it differ. Exit 1 if either has errors. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    jobs: { type: "string" },
    spread: { type: "string" },
    seed: { type: "string" },
    all: { type: "boolean" },
    json: { type: "boolean" },
  },
  run: async ([oldFile, newFile], options, io) => {
    if (oldFile === undefined || newFile === undefined)
      throw new CallError("Name two books: the old one and the new one.");
    if (oldFile === "-" && newFile === "-")
      throw new CallError("Only one of the two books can come from standard input.");
    const before = await readBookWithOthers(io, oldFile, options);
    const after = await readBookWithOthers(io, newFile, options);
    const view = await compare(io, before, after, options);
    const erring = [before, after].filter(hasErrors);
    if (options["json"]) {
      const { groups, counts, reached, toReach, done, moved } = view;
      const books = { before: head(before), after: head(after) };
      printJson(io, { ...books, groups, counts, reached, toReach, done, moved });
    } else {
      print(io, weighText(before, after, view, options["all"] === true));
      for (const book of erring) print(io, `\n${named(book)} has errors: see bevelbook check.`);
    }
    return erring.length > 0 ? 1 : 0;
  },
};

/** Runs the comparison to its end and reports progress on standard error. */
async function compare(io: Io, before: Book, after: Book, options: Options): Promise<ComparisonView> {
  const comparison = compareBooks(before, after, {
    logged: await readLog(io, options["jobs"] as string | undefined),
    spread: wholeNumber(options["spread"], "--spread", 100),
    seed: wholeNumber(options["seed"], "--seed", 1),
  });
  let last = performance.now();
  for (let done = atATime; !comparison.advance(atATime); done += atATime) {
    if (performance.now() - last < 1000 && done % reportEvery !== 0) continue;
    last = performance.now();
    // How far it is, without the jobs that moved.
    const { settled, all } = comparison.view(Infinity);
    io.stderr.write(`weighed ${settled} of ${all} jobs\n`);
  }
  return comparison.view();
}

const head = (book: Book) => ({ book: book.name, edition: book.edition ?? null });
const named = (book: Book): string =>
  withEdition({ ...book, name: book.name || "a text that names no book" });

async function readLog(io: Io, file: string | undefined) {
  if (file === undefined) return [];
  const text = await readText(io, file, "file of jobs");
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    throw new CallError(`${file} is not JSON: ${(error as Error).message}`);
  }
  const { loggedJobs } = await import("../../core/schemas/report.ts");
  const parsed = loggedJobs.safeParse(data);
  if (!parsed.success)
    throw new CallError(
      `${file} holds no jobs: it is a JSON object of jobs by name, ` +
        'such as {"job 7": {"thickness": "6 mm"}}, or a list of {"name": …, "answers": …}.',
    );
  const list = Array.isArray(parsed.data)
    ? parsed.data
    : Object.entries(parsed.data).map(([name, answers]) => ({ name, answers }));
  return list.map(({ name, answers }) => ({ name, answers: asTyped(answers) }));
}

function wholeNumber(option: Options[string], name: string, otherwise: number): number {
  if (option === undefined) return otherwise;
  const number = Number(option);
  if (typeof option !== "string" || !/^\d+$/.test(option) || number > 100_000)
    throw new CallError(`${name} is a whole number from 0 to 100000, not “${String(option)}”.`);
  return number;
}

/** The comparison as lines of text: what is written otherwise, what that does, and to which jobs. */
function weighText(before: Book, after: Book, view: ComparisonView, all: boolean): string {
  const changed = compareRules(before, after).length > 0;
  const out = [
    `${named(before)} against ${named(after)}`,
    "",
    changed ? "What is written otherwise" : "No rule is written otherwise.",
    ...view.groups.flatMap(groupLines),
    ...effectLines(view),
  ];
  // A job that is refused now, or no longer, comes first; then those that hand out work.
  const moved = [...view.moved].sort((a, b) => urgency(a) - urgency(b));
  const shown = all ? moved : moved.slice(0, mostShown);
  out.push(...shown.flatMap(jobLines));
  if (shown.length < view.moved.length)
    out.push("", `and ${view.moved.length - shown.length} jobs more (--all tells each)`);
  return out.join("\n");
}

function groupLines({ changes, jobs }: ComparisonView["groups"][number], g: number): readonly string[] {
  const moves = changes.every((change) => change.wordsOnly)
    ? "only words for readers: moves nothing"
    : jobs === 0
      ? "moves no job that was weighed"
      : `moves ${counted(jobs, "job")}`;
  return [
    ...changes.flatMap((change, i) => [
      `  ${i === 0 ? `${g + 1}.`.padEnd(3) : "   "} ${change.says}`,
      ...(change.details.length > 1 ? change.details.map((detail) => `        ${detail}`) : []),
    ]),
    `      ${moves}`,
  ];
}

function effectLines({ counts, reached, toReach }: ComparisonView): readonly string[] {
  const { worked, logged, spread } = counts;
  const lines = [
    "",
    "What it does",
    `  worked examples: ${worked.moved} of ${worked.worked} come out otherwise`,
  ];
  if (logged.worked > 0) lines.push(`  logged jobs: ${logged.moved} of ${logged.worked}`);
  if (spread.worked > 0)
    lines.push(
      `  made-up jobs: ${spread.moved} of ${spread.worked}`,
      `  together they reach ${reached} of the ${toReach} rows, alternatives and lines that can be reached`,
    );
  return lines;
}

type MovedJob = ComparisonView["moved"][number];

const urgency = (job: MovedJob): number =>
  job.stateBefore !== job.stateAfter ? 0 : job.stateAfter === "ready" ? 1 : 2;

const kinds = { worked: "worked example", logged: "logged job", spread: "job" } as const;

function jobLines(job: MovedJob): readonly string[] {
  const states =
    job.stateBefore === job.stateAfter
      ? `, ${job.stateAfter}`
      : `: ${job.stateBefore} becomes ${job.stateAfter}`;
  const answers = Object.entries(job.answers).map(([ask, answer]) => `${ask} ${answer}`);
  return [
    "",
    `${kinds[job.from]} ${job.name}${states}`,
    ...(job.from === "spread" ? [`    ${answers.join(", ")}`] : []),
    ...job.outputs
      .filter((output) => output.name !== "state")
      .map((output) => `    ${output.name}: ${output.before} becomes ${output.after}${cause(output)}`),
  ];
}

function cause({ by, together }: ComparedOutput): string {
  if (by.length === 0) return "";
  const numbers = by.map((group) => group + 1);
  return together ? `  (by the meeting of ${numbers.join(" and ")})` : `  (by ${numbers.join(", ")})`;
}
