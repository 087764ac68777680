// The engine's answers to the host's questions, as plain data.
import { answerInWords } from "../../../core/answer-words.ts";
import { cardOf } from "../../../core/compare-card.ts";
import type { Fault } from "../../../core/schemas/host.ts";
import {
  type Book,
  engineVersion,
  contentHashOf,
  readBook,
  showJob,
  verificationOf,
  why,
  workJob,
} from "../../../engine/index.ts";
import type { Checked, Progress, Proved, Question, WorkedAgain } from "./thread-messages.ts";

/** `now` in milliseconds; `tell` hears how far a proof is, about twice a second. */
export function answer(
  question: Question,
  now: () => number,
  tell: (progress: Progress) => void,
): Checked | Proved | WorkedAgain {
  switch (question.asks) {
    case "check":
      return check(readBook(question.text, undefined, question.under));
    case "prove":
      return prove(readBook(question.text, undefined, question.under), {
        end: now() + question.seconds * 1000,
        now,
        tell,
      });
    case "work":
      return workAgain(readBook(question.text, undefined, question.under), question.answers);
  }
}

function check(book: Book): Checked {
  const lineAt = (place: number): { line?: number } =>
    place > book.text.length ? {} : { line: book.text.slice(0, place).split("\n").length };
  const failing = new Set(book.worked.filter((one) => !one.passes).map((one) => one.name));
  const rows = book.rows.filter(
    (row) => row.keyword === "worked" && row.name !== undefined && failing.has(row.name),
  );
  const errors = book.findings.filter((finding) => finding.weight === "error");
  // What a failing example gives instead is a finding in the example itself, or, where the example is one of
  // a book underneath, in the own text.
  const inExample = ({ code, at }: (typeof errors)[number]): boolean =>
    code.startsWith("worked/") || rows.some((row) => at.start >= row.at.start && at.start <= row.at.end);
  const faults = errors.map(
    (finding): Fault => ({
      is: inExample(finding) ? "example" : "error",
      says: finding.says,
      ...lineAt(finding.at.start),
    }),
  );
  const reported = errors.filter(inExample);
  const silent = rows.filter(
    (row) =>
      !reported.some(
        ({ at, says }) =>
          (at.start >= row.at.start && at.start <= row.at.end) ||
          says.includes(`worked example ${row.name} `),
      ),
  );
  return {
    name: book.name,
    ...(book.edition === undefined ? {} : { edition: book.edition }),
    title: book.title,
    faults: [
      ...faults,
      ...silent.map(
        (row): Fault => ({
          is: "example",
          says: `The worked example ${row.name} does not come out as it says.`,
          ...lineAt(row.at.start),
        }),
      ),
    ],
    stands: book.dependencies.map(({ name, edition, fingerprint }) => ({
      name,
      ...(edition === undefined ? {} : { edition }),
      here: fingerprint !== "",
    })),
  };
}

/** Boxes of jobs looked at between two looks at the clock. */
const atATime = 200;

/** Milliseconds between two words on how far a proof is. */
const tellEvery = 500;

function prove(
  book: Book,
  {
    end,
    now,
    tell,
  }: { readonly end: number; readonly now: () => number; readonly tell: (progress: Progress) => void },
): Proved {
  const proof = verificationOf(book);
  let told = -Infinity;
  while (!proof.advance(atATime) && now() < end) {
    if (now() - told < tellEvery) continue;
    told = now();
    const { settled, all } = proof.view();
    tell({ settled, all });
  }
  const { goals, done } = proof.view();
  const faults = goals.flatMap((goal): readonly Fault[] => {
    switch (goal.verdict) {
      case "proved":
        return [];
      case "broken":
        return [
          {
            is: "promise",
            says: `Broken: ${goal.says}${
              goal.job === undefined
                ? ""
                : ` (by the job ${
                    Object.entries(goal.job)
                      .map(([ask, text]) => `${ask} ${answerInWords(text)}`)
                      .join(", ") || "without answers"
                  })`
            }`,
          },
        ];
      case "not settled":
      case "looking":
        return [{ is: "not settled", says: `Not proved: ${goal.says}` }];
    }
  });
  return {
    faults,
    standing: {
      goals: goals.length,
      proved: goals.filter((goal) => goal.verdict === "proved").length,
      done,
      engine: engineVersion,
      fingerprint: contentHashOf(book),
    },
  };
}

function workAgain(book: Book, answers: Readonly<Record<string, string>>): WorkedAgain {
  const job = workJob(book, answers);
  const view = showJob(job);
  const asked = new Set([...view.stops, ...view.cautions, ...view.steps].map((line) => line.id));
  for (const value of view.values)
    if (value.state === "known" && !value.name.includes(".")) asked.add(value.name);
  const traces = [...asked].flatMap((of) => {
    const trace = why(job, of, "deciding");
    return trace === undefined ? [] : [{ of, steps: trace.steps }];
  });
  return { card: cardOf(view, engineVersion), traces };
}
