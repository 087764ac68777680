// The documents that cross a border: job files in, reports and traces out. Each schema says what a field is,
// so that `npm run docs` can write them down and a test can hold what the terminal prints against them.
import { z } from "zod";
import { JOB_STATES, VALUE_STATES } from "../job-state.ts";

const span = z
  .object({ start: z.number().int(), end: z.number().int() })
  .describe("Place in the book's text, in UTF-16 units; `end` is just after it");

export const jobFile = z
  .record(z.string().max(200), z.union([z.string().max(200), z.number(), z.boolean()]))
  .describe(
    'Answers as a person would type them, by the name of the ask: {"thickness": "6 mm", "skin": "hand-laid"}',
  );

const state = z.enum(VALUE_STATES);

const shownValue = z.object({
  text: z.string().describe("What a person reads, or why there is nothing"),
  value: z
    .union([z.number(), z.string(), z.boolean(), z.array(z.record(z.string(), z.unknown())), z.null()])
    .describe("In `unit`; a word, true or false; the rows of a list; null where not known"),
  unit: z.string().nullable(),
  state,
  waitsFor: z.array(z.string()).optional(),
  reason: z.string().optional(),
});

const line = z.object({
  id: z.string(),
  name: z.string().optional(),
  text: z.string(),
  refers: z.literal(true).optional().describe("Of a stop: a referral, for somebody else to decide"),
  then: z.string().optional().describe("Of a stop: what to do now"),
  because: z.string().optional(),
  basis: z.string().optional(),
  takes: z.string().optional(),
  waits: z.string().optional(),
  layer: z
    .string()
    .optional()
    .describe("Name of the book that the line is in, where the book depends on others"),
  mayApply: z
    .array(z.string())
    .optional()
    .describe("Of a caution whose condition is open: the asks that it waits for"),
});

const finding = z.object({
  code: z.string(),
  weight: z.enum(["error", "warning", "note"]),
  at: span,
  line: z.number().int().describe("Counted from 1"),
  says: z.string(),
  witness: z.string().optional(),
  also: z
    .array(
      z.object({
        line: z.number().int(),
        in: z.string().optional().describe("The book underneath that the line is of"),
        says: z.string(),
      }),
    )
    .optional(),
  repairs: z.array(z.object({ says: z.string(), edits: z.array(z.object({ at: span, text: z.string() })) })),
});

const answers = z
  .record(z.string(), z.string())
  .describe("Answers by the name of the ask, as they are typed");

const standingReport = z.object({
  done: z.boolean().describe("False when the time was over before all was looked at"),
  settled: z.number().int(),
  all: z.number().int(),
  holds: z.boolean().describe("All goals are proved"),
  goals: z.array(
    z.object({
      id: z.string().describe("Row id of the statement; `book` for the book as a whole"),
      sort: z.enum(["promise", "condition", "numbers", "chart", "card"]),
      says: z.string(),
      verdict: z
        .enum(["proved", "broken", "not settled", "looking"])
        .describe("`looking`: the time was over first"),
      job: answers.optional().describe("A job that breaks it"),
      gives: z.string().optional().describe("What comes out in that job"),
      share: z.number().optional().describe("The part of all jobs that is open, 0 to 1"),
      rest: answers.optional().describe("The largest part that is open, by ask"),
      bound: z
        .enum(["boxes", "digits"])
        .optional()
        .describe("What kept it from being settled: its share of the work, or parts smaller than any answer"),
      settings: z
        .object({
          verdict: z.enum(["proved", "broken", "not settled", "looking"]),
          dials: answers.optional().describe("The dials that are turned in the settings that break it"),
          job: answers.optional().describe("A job that breaks it with those settings"),
          bound: z.enum(["boxes", "digits", "chart rows"]).optional(),
        })
        .optional()
        .describe("Of a proved promise: whether it holds for every setting of the dials within their spans"),
    }),
  ),
  never: z
    .array(
      z.object({
        id: z.string(),
        at: span,
        line: z.number().int(),
        in: z.string().optional().describe("The book underneath that the line is of"),
        says: z.string(),
      }),
    )
    .describe("Rows, alternatives and lines that no job reaches"),
});

const guardReport = z.object({
  done: z.boolean(),
  tried: z.number().int().describe("Small changes to the rules tried"),
  all: z.number().int(),
  noticed: z.number().int().describe("Of those tried, the ones that an example or the checker notices"),
  unreached: z
    .array(z.object({ id: z.string(), at: span, line: z.number().int(), says: z.string() }))
    .describe("What no worked example reaches"),
  unnoticed: z.array(
    z.object({
      id: z.string(),
      at: span,
      line: z.number().int(),
      says: z.string(),
      job: answers.optional().describe("A job that tells the two apart"),
      worked: z.string().optional().describe("The same as a worked example, ready to be put into the book"),
    }),
  ),
});

export const checkReport = z
  .object({
    book: z.string(),
    edition: z.number().nullable(),
    stands: z
      .array(
        z.object({
          name: z.string(),
          edition: z.number().nullable(),
          fingerprint: z.string().describe("SHA-256 in hex; empty for a book that is not at hand"),
        }),
      )
      .optional()
      .describe("What the book depends on"),
    statements: z.number().int(),
    worked: z.object({ pass: z.number().int(), fail: z.number().int() }),
    findings: z.array(finding),
    standing: standingReport.optional().describe("With --prove"),
    guard: guardReport.optional().describe("With --prove --guard"),
  })
  .describe("bevelbook check --json");

export const workReport = z
  .object({
    book: z.string(),
    edition: z.number().nullable(),
    state: z.enum(JOB_STATES),
    values: z.record(z.string(), shownValue),
    steps: z.array(line).describe("Released only when the state is ready"),
    cautions: z.array(line),
    stops: z.array(line),
    waiting: z.array(z.string()).describe("Asks still waited for, the most wanted first"),
    oneOf: z.array(z.array(z.string())).describe("Groups of these of which one answer is enough"),
    doubts: z
      .object({
        open: z.array(z.object({ id: z.string(), says: z.string() })),
        measureAgain: z.string().optional().describe("The ask whose sharper measurement settles most"),
        turnsAt: z.object({ value: z.string(), away: z.string() }).optional(),
      })
      .optional()
      .describe("Decisions that turn within the tolerances of the answers; absent where none has one"),
    findings: z
      .array(z.object({ code: z.string(), ask: z.string(), says: z.string() }))
      .describe("Answers that could not be used"),
    blocked: z
      .array(z.object({ says: z.string(), ids: z.array(z.string()) }))
      .describe("Why an impossible job is so, with the rows kept back; empty in other states"),
    broken: z
      .array(z.object({ id: z.string(), says: z.string() }))
      .describe("Promises of the book that this job breaks"),
    bookFindings: z
      .array(
        z.object({
          code: z.string(),
          weight: z.enum(["error", "warning", "note"]),
          line: z.number().int().describe("Counted from 1"),
          says: z.string(),
        }),
      )
      .describe("Findings of the book itself; with an error among them the exit code is 3"),
  })
  .describe("bevelbook work --json");

export const traceReport = z
  .object({
    of: z.string(),
    depth: z.enum(["deciding", "full"]),
    steps: z
      .array(
        z.object({
          does: z.enum([
            "answer",
            "taken",
            "unanswered",
            "dial",
            "figure",
            "chart",
            "list",
            "step",
            "caution",
            "stop",
            "promise",
          ]),
          name: z.string(),
          id: z.string(),
          at: span.describe("The chart row or branch that decided, else the rule"),
          state,
          value: z.string(),
          rule: z.string().describe("As written"),
          filled: z.string().describe("The same with its numbers filled in"),
          decided: z.string().describe("What decided; empty where all of it did"),
          because: z.string().optional(),
          basis: z.string().optional(),
          layer: z.string(),
          rests: z
            .array(z.number().int())
            .describe("Places in `steps` of what it depends on; each step is there once"),
        }),
      )
      .describe("Step 0 is the value asked about"),
  })
  .describe("bevelbook why --json");

const ruleChange = z.object({
  id: z.string(),
  does: z.enum(["added", "dropped", "changed", "moved"]),
  says: z.string(),
  details: z.array(z.string()),
  wordsOnly: z.boolean().describe("Only words for readers differ: no value can follow from it"),
});

export const comparisonReport = z
  .object({
    before: z.object({ book: z.string(), edition: z.number().nullable() }),
    after: z.object({ book: z.string(), edition: z.number().nullable() }),
    groups: z
      .array(
        z.object({
          changes: z.array(ruleChange),
          jobs: z.number().int().describe("Jobs that this change moves"),
        }),
      )
      .describe("What is written otherwise; changes that only make sense together are one group"),
    counts: z
      .record(
        z.enum(["worked", "logged", "spread"]),
        z.object({ worked: z.number().int(), moved: z.number().int() }),
      )
      .describe("Jobs worked by both books, and how many come out otherwise, by where they come from"),
    reached: z.number().int().describe("Rows, alternatives and lines of both books that these jobs reach"),
    toReach: z.number().int(),
    done: z.boolean(),
    moved: z.array(
      z.object({
        name: z.string(),
        from: z.enum(["worked", "logged", "spread"]),
        answers,
        stateBefore: z.string(),
        stateAfter: z.string(),
        outputs: z.array(
          z.object({
            name: z.string(),
            before: z.string(),
            after: z.string(),
            by: z.array(z.number().int()).describe("Places in `groups`"),
            together: z.boolean().optional().describe("None of them alone moves it"),
          }),
        ),
      }),
    ),
  })
  .describe("bevelbook weigh --json");

export const loggedJobs = z
  .union([
    z.record(z.string().max(200), jobFile),
    z.array(z.object({ name: z.string().max(200), answers: jobFile })),
  ])
  .describe('Jobs of a log: {"name": {"thickness": "6 mm"}} or [{"name": …, "answers": …}]');
