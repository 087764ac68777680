// bevelbook weigh: two books, or two editions of one, compared by rule and by what they do to jobs.
import { compareRules, compareBooks } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";
import type { ComparisonView, ComparedOutput } from "../../core/view.ts";
import { SHELF_SAYS, readBookAtHand, shelfOption } from "./book-resolver.ts";
import { CallError, type Command, asTyped, hasErrors, print, printJson, readText } from "./call.ts";

/** Jobs weighed between two looks at the clock. */
const atATime = 10;
/** It is told how far it is after so many jobs, and after each second. */
const tellEvery = 1000;
/** Jobs told one by one in the text; --json has them all. */
const told = 12;

export const weighCommand: Command = {
  usage: "OLD NEW [--jobs FILE] [--spread N] [--seed N] [--all] [--shelf FOLDER] [--json]",
  says: `Compares two books by rule, in words, and by effect: their worked examples, the jobs of a file and a made-up spread are worked by both, and each output that differs is told with the rule change that made it differ. Exit 1 if either has errors. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    jobs: { type: "string" },
    spread: { type: "string" },
    seed: { type: "string" },
    all: { type: "boolean" },
    json: { type: "boolean" },
  },
  run: async ([oldFile, newFile], options) => {
    if (oldFile === undefined || newFile === undefined)
      throw new CallError("Name two books: the old one and the new one.");
    if (oldFile === "-" && newFile === "-")
      throw new CallError("Only one of the two books can come from standard input.");
    const before = await readBookAtHand(oldFile, options["shelf"]);
    const after = await readBookAtHand(newFile, options["shelf"]);
    const weighing = compareBooks(before, after, {
      logged: await readLog(options["jobs"] as string | undefined),
      spread: wholeNumber(options["spread"], "--spread", 100),
      seed: wholeNumber(options["seed"], "--seed", 1),
    });
    let last = performance.now();
    for (let done = atATime; !weighing.advance(atATime); done += atATime) {
      if (performance.now() - last < 1000 && done % tellEvery !== 0) continue;
      last = performance.now();
      // How far it is, without the jobs that moved.
      const { settled, all } = weighing.view(Infinity);
      process.stderr.write(`weighed ${settled} of ${all} jobs\n`);
    }
    const view = weighing.view();
    if (options["json"])
      printJson({
        before: head(before),
        after: head(after),
        groups: view.groups,
        counts: view.counts,
        reached: view.reached,
        toReach: view.toReach,
        done: view.done,
        moved: view.moved,
      });
    else print(weighText(before, after, view, options["all"] === true));
    if (!options["json"])
      for (const book of [before, after])
        if (hasErrors(book)) print(`\n${named(book)} has errors: see bevelbook check.`);
    return hasErrors(before) || hasErrors(after) ? 1 : 0;
  },
};

const head = (book: Book) => ({ book: book.name, edition: book.edition ?? null });
const named = (book: Book): string =>
  `${book.name || "a text that names no book"}${book.edition === undefined ? "" : `, edition ${book.edition}`}`;

async function readLog(file: string | undefined) {
  if (file === undefined) return [];
  const text = await readText(file, "file of jobs");
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
      `${file} holds no jobs: it is a JSON object of jobs by name, such as {"job 7": {"thickness": "6 mm"}}, or a list of {"name": …, "answers": …}.`,
    );
  const list = Array.isArray(parsed.data)
    ? parsed.data
    : Object.entries(parsed.data).map(([name, answers]) => ({ name, answers }));
  return list.map(({ name, answers }) => ({ name, answers: asTyped(answers) }));
}

function wholeNumber(
  option: string | boolean | readonly string[] | undefined,
  name: string,
  otherwise: number,
): number {
  if (option === undefined) return otherwise;
  const number = Number(option);
  if (typeof option !== "string" || !/^\d+$/.test(option) || number > 100_000)
    throw new CallError(`${name} is a whole number from 0 to 100000, not “${String(option)}”.`);
  return number;
}

/** The comparison as lines of text: what is written otherwise, what that does, and to which jobs. */
function weighText(before: Book, after: Book, view: ComparisonView, all: boolean): string {
  const out = [`${named(before)} against ${named(after)}`, ""];
  const changes = compareRules(before, after);
  out.push(changes.length === 0 ? "No rule is written otherwise." : "What is written otherwise");
  view.groups.forEach(({ changes: group, jobs }, g) => {
    const wordsOnly = group.every((change) => change.wordsOnly);
    out.push(
      ...group.flatMap((change, i) => [
        `  ${i === 0 ? `${g + 1}.`.padEnd(3) : "   "} ${change.says}`,
        ...(change.details.length > 1 ? change.details.map((detail) => `        ${detail}`) : []),
      ]),
      `      ${wordsOnly ? "only words for readers: moves nothing" : jobs === 0 ? "moves no job that was weighed" : `moves ${jobs === 1 ? "1 job" : `${jobs} jobs`}`}`,
    );
  });
  const { worked, logged, spread } = view.counts;
  out.push("", "What it does", `  worked examples: ${worked.moved} of ${worked.worked} come out otherwise`);
  if (logged.worked > 0) out.push(`  logged jobs: ${logged.moved} of ${logged.worked}`);
  if (spread.worked > 0)
    out.push(
      `  made-up jobs: ${spread.moved} of ${spread.worked}`,
      `  together they reach ${view.reached} of the ${view.toReach} rows, alternatives and lines that can be reached`,
    );
  // A job that is refused now, or no longer, comes first; then those that hand out work.
  const weight = (job: (typeof view.moved)[number]): number =>
    job.stateBefore !== job.stateAfter ? 0 : job.stateAfter === "ready" ? 1 : 2;
  const moved = [...view.moved].sort((a, b) => weight(a) - weight(b));
  const shown = all ? moved : moved.slice(0, told);
  for (const job of shown) {
    out.push(
      "",
      `${job.from === "worked" ? "worked example" : job.from === "logged" ? "logged job" : "job"} ${job.name}${job.stateBefore === job.stateAfter ? `, ${job.stateAfter}` : `: ${job.stateBefore} becomes ${job.stateAfter}`}`,
    );
    if (job.from === "spread")
      out.push(
        `    ${Object.entries(job.answers)
          .map(([ask, answer]) => `${ask} ${answer}`)
          .join(", ")}`,
      );
    for (const output of job.outputs)
      if (output.name !== "state")
        out.push(`    ${output.name}: ${output.before} becomes ${output.after}${cause(output)}`);
  }
  if (shown.length < view.moved.length)
    out.push("", `and ${view.moved.length - shown.length} jobs more (--all tells each)`);
  return out.join("\n");
}

const cause = ({ by, together }: ComparedOutput): string =>
  by.length === 0
    ? ""
    : `  (by ${together ? "the meeting of " : ""}${by.map((g) => g + 1).join(together ? " and " : ", ")})`;
