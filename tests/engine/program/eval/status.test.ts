// The safety rule as a table: a small book, answers, and the state that the job must have, with the reason.
import { describe, expect, test } from "vitest";
import { reasonText } from "../../../../core/reason-words.ts";
import { evaluationOf, readBook, workJob } from "../../../../engine/api/book.ts";
import { asksWaitedFor, jobStatus } from "../../../../engine/program/eval/status.ts";

/**
 * One row: the statements of a book, the answers as `ask answer; ask answer`, and the state with its reason.
 */
interface Row {
  readonly says: string;
  readonly book: string;
  readonly rows: readonly (readonly [answers: string, status: string])[];
}

const ASKS = `
ask depth in mm, 0 to 50
ask wet of yes-no
`;

/** A figure that can have no value once the job has begun. */
const RATE = `ask parts in count, 0 to 9
figure rate = 1 / parts
`;

const TABLE: readonly Row[] = [
  {
    says: "a book that needs nothing",
    book: `figure half in mm = 1 mm / 2`,
    rows: [["", "ready"]],
  },
  {
    says: "a step without a condition",
    book: `step sand "Sand it"`,
    rows: [["", "ready"]],
  },
  {
    says: "the condition of a step",
    book: `${ASKS}step sand "Sand it" when depth > 2 mm`,
    rows: [
      ["", "waiting for depth"],
      ["depth 1 mm", "ready"],
      ["depth 3 mm", "ready"],
    ],
  },
  {
    says: "the condition of a caution holds nothing back while it is open",
    book: `${ASKS}${RATE}caution deep "Deep" when depth > 2 mm\ncaution fast "Fast" when rate > 2`,
    rows: [
      ["", "ready"],
      ["depth 1 mm", "ready"],
      ["parts 0", "impossible: it divides by zero (caution fast)"],
    ],
  },
  {
    says: "a referral comes behind a stop and before all else",
    book: `${ASKS}${RATE}step sand "Sand it" when rate > 1
stop core "Wet core" when wet
refer deep "Ask an engineer" when depth > 20 mm`,
    rows: [
      ["wet yes; depth 30 mm; parts 0", "stopped, though impossible: it divides by zero (step sand)"],
      ["wet no; depth 30 mm; parts 0", "referred, though impossible: it divides by zero (step sand)"],
      ["wet no; depth 30 mm", "referred, though waiting for parts"],
      ["depth 30 mm", "referred, though waiting for wet, parts"],
      ["wet yes", "stopped, though waiting for depth, parts"],
      ["wet no; depth 3 mm; parts 0", "impossible: it divides by zero (step sand)"],
      ["wet no; depth 3 mm", "waiting for parts"],
      ["wet no; parts 1", "waiting for depth"],
      ["wet no; depth 3 mm; parts 1", "ready"],
    ],
  },
  {
    says: "the condition of a stop",
    book: `${ASKS}step sand "Sand it"\nstop core "Wet core" when wet`,
    rows: [
      ["", "waiting for wet"],
      ["wet no", "ready"],
      ["wet yes", "stopped"],
    ],
  },
  {
    says: "a stop that holds counts before everything that is open",
    book: `${ASKS}step sand "Sand it" when depth > 2 mm\nstop core "Wet core" when wet`,
    rows: [
      ["", "waiting for depth, wet"],
      ["wet no", "waiting for depth"],
      ["wet yes", "stopped, though waiting for depth"],
    ],
  },
  {
    says: "a stop that holds counts before a value that cannot be",
    book: `${ASKS}${RATE}step sand "Sand {rate}"\nstop core "Wet core" when wet`,
    rows: [
      ["parts 0; wet no", "impossible: it divides by zero (step sand)"],
      ["parts 0; wet yes", "stopped, though impossible: it divides by zero (step sand)"],
    ],
  },
  {
    says: "the values in the text of a step that applies",
    book: `${ASKS}step sand "Sand {depth} deep" when wet`,
    rows: [
      ["", "waiting for wet"],
      ["wet no", "ready"],
      ["wet yes", "waiting for depth"],
      ["wet yes; depth 3 mm", "ready"],
    ],
  },
  {
    says: "the values in a text that a figure or a chart gives to a step",
    book: `${ASKS}${RATE}figure how = "at {rate} a minute" if wet, otherwise "{depth} deep"
figure all = "Sand it {how}"
chart hint by wet gives text
    wet | hint
    yes | "not {depth}"
    no  | ""
step sand "{all}"
step wash "Wash it {hint}"`,
    rows: [
      ["wet no", "waiting for depth"],
      ["wet no; depth 3 mm", "ready"],
      ["wet yes; depth 3 mm", "waiting for parts"],
      ["wet yes; parts 2", "waiting for depth"],
      ["wet yes; depth 3 mm; parts 2", "ready"],
      ["wet yes; depth 3 mm; parts 0", "impossible: it divides by zero (step sand)"],
    ],
  },
  {
    says: "the values in the text of a caution that applies",
    book: `${ASKS}caution deep "{depth} deep" when wet`,
    rows: [
      ["", "ready"],
      ["wet yes", "waiting for depth"],
      ["wet no", "ready"],
    ],
  },
  {
    says: "the values in the text of a stop are not needed: the state says enough",
    book: `${ASKS}stop deep "{depth} deep" when wet`,
    rows: [
      ["wet no", "ready"],
      ["wet yes", "stopped"],
    ],
  },
  {
    says: "the time and the wait of a step that applies",
    book: `${ASKS}figure slow in min = depth / 1 mm * 1 min
step sand "Sand it" when wet
    takes slow
step dry "Let it dry" when not wet
    waits slow`,
    rows: [
      ["wet yes", "waiting for depth"],
      ["wet no", "waiting for depth"],
      ["wet yes; depth 3 mm", "ready"],
    ],
  },
  {
    says: "reasons in texts are not needed",
    book: `${ASKS}step sand "Sand it"\n    because "It is {depth} deep"`,
    rows: [["", "ready"]],
  },
  {
    says: "a figure that no line needs",
    book: `${ASKS}${RATE}figure twice in mm = 2 * depth\nstep sand "Sand it"`,
    rows: [["", "ready"]],
  },
  {
    says: "a condition that can have no value",
    book: `${ASKS}${RATE}step sand "Sand it" when rate * depth > 2 mm
step wash "Wash it" when rate * depth > 3 mm`,
    rows: [
      ["parts 0", "impossible: it divides by zero (step sand, step wash)"],
      ["parts 1; depth 1 mm", "ready"],
    ],
  },
  {
    says: "a value that can never be counts before one that waits",
    book: `${ASKS}${RATE}step sand "Sand {rate}"\nstep wash "Wash it" when wet`,
    rows: [["parts 0", "impossible: it divides by zero (step sand), though waiting for wet"]],
  },
  {
    says: "an answer that cannot be used",
    book: `${ASKS}step sand "Sand it" when depth > 2 mm`,
    rows: [
      [
        "depth 90 mm",
        "impossible: depth is asked from 0 mm to 50 mm; 90 mm is outside. (ask depth, step sand)",
      ],
      ["wet maybe; depth 3 mm", "impossible: wet is answered yes or no, not “maybe”. (ask wet)"],
      ["colour red; depth 3 mm", "ready"],
    ],
  },
  {
    says: "an answer that cannot be used is not a missing one",
    book: `ask engine in kW, 1 to 200
figure power in kW = engine if engine is known, otherwise 99 kW
step go "Use {power}"`,
    rows: [
      ["", "ready"],
      ["engine 40 kW", "ready"],
      [
        "engine 40 kg",
        "impossible: engine is a power in kW; “40 kg” is a mass. Write for example 100 kW. " +
          "(ask engine, step go)",
      ],
      [
        "engine 400 kW",
        "impossible: engine is asked from 1 kW to 200 kW; 400 kW is outside. (ask engine, step go)",
      ],
      [
        "engine lots",
        "impossible: “lots” cannot be read as an answer to engine; write for example 100 " +
          "kW. (ask engine, step go)",
      ],
    ],
  },
  {
    says: "an answer that cannot be used does not get the fallback of “cannot tell”",
    book: `ask depth in mm, 1 to 12
    if unknown take 12 mm because "The careful side"
step sand "Sand {depth}"`,
    rows: [
      ["depth unknown", "ready"],
      [
        "depth 20 mm",
        "impossible: depth is asked from 1 mm to 12 mm; 20 mm is outside. (ask depth, step sand)",
      ],
    ],
  },
  {
    says: "a fallback outside the range of its ask",
    book: `ask width in mm, 1 to 100
ask depth in mm, 1 to 12
    if unknown take width / 2 because "Half as deep"
step sand "Sand {depth}"`,
    rows: [
      ["width 20 mm; depth unknown", "ready"],
      ["width 24.00000000001 mm; depth unknown", "ready"],
      [
        "width 100 mm; depth unknown",
        "impossible: what the book takes for depth lies outside 1 mm to 12 mm, which " +
          "is what it asks for (step sand)",
      ],
    ],
  },
  {
    says: "a written fallback outside the range of its ask",
    book: `ask depth in mm, 1 to 12
    if unknown take 20 mm because "Deep"
step sand "Sand {depth}"`,
    rows: [
      [
        "depth unknown",
        "impossible: what the book takes for depth lies outside 1 mm to 12 mm, which " +
          "is what it asks for (step sand)",
      ],
      ["depth 5 mm", "ready"],
    ],
  },
  {
    says: "a stop on a key that the answers empty",
    book: `kind skin
    smc "One"
    steel "Two"
ask magnetic of yes-no
ask burns of yes-no
chart key by magnetic, burns gives skin
    keep every row that fits
    magnetic | burns | skin
    yes      | no    | steel
    no       | yes   | smc
    from practice
stop none "Nothing fits" when count of key is 0
step go "Go"`,
    rows: [
      ["magnetic yes; burns no", "ready"],
      ["magnetic yes; burns yes", "stopped"],
      ["magnetic yes", "ready"],
    ],
  },
  {
    says: "two rows that apply at once",
    book: `ask air in °C, 0 to 40
chart hours by air gives h
    air            | value
    under 23 °C    | 24 h
    22 °C and over | 8 h
step wait "Wait {hours}"`,
    rows: [
      ["air 20 °C", "ready"],
      ["air 30 °C", "ready"],
      [
        "air 22.5 °C",
        "impossible: two rows of hours apply: row 1 in line 4 (under 23 °C | 24 h) and " +
          "row 2 in line 5 (22 °C and over | 8 h) (step wait)",
      ],
    ],
  },
  {
    says: "a row that applies in any case, beside one that an open answer may bring",
    book: `ask air in °C, 0 to 40
ask wet of yes-no
chart hours by air, wet gives h
    air            | wet | value
    under 23 °C    | any | 24 h
    22 °C and over | yes | 8 h
    23 °C and over | no  | 4 h
step wait "Wait {hours}"`,
    rows: [
      ["air 20 °C", "ready"],
      ["air 22.5 °C", "waiting for wet"],
      ["air 22.5 °C; wet no", "ready"],
      [
        "air 22.5 °C; wet yes",
        "impossible: two rows of hours apply: row 1 in line 5 (under 23 °C | any | 24 h) and " +
          "row 2 in line 6 (22 °C and over | yes | 8 h) (step wait)",
      ],
    ],
  },
  {
    says: "two rows that may apply at once do not settle an open answer, though they agree",
    book: `ask air in °C, 0 to 40
chart hours by air gives h
    air            | value
    under 23 °C    | 24 h
    22 °C and over | 24 h
step wait "Wait {hours}"`,
    rows: [
      ["", "waiting for air"],
      ["air 20 °C", "ready"],
    ],
  },
  {
    says: "two rows that apply at once where the first one wins",
    book: `ask air in °C, 0 to 40
chart hours by air gives h
    first row wins
    air            | value
    under 23 °C    | 24 h
    22 °C and over | 8 h
step wait "Wait {hours}"`,
    rows: [["air 22.5 °C", "ready"]],
  },
  {
    says: "two rows that apply whatever an open answer is",
    book: `ask air in °C, 0 to 40
ask wet of yes-no
chart hours by air, wet gives h
    air            | wet | value
    under 23 °C    | any | 24 h
    22 °C and over | any | 8 h
step wait "Wait {hours}"`,
    rows: [
      ["air 20 °C", "ready"],
      [
        "air 22.5 °C",
        "impossible: two rows of hours apply: row 1 in line 5 (under 23 °C | any | 24 h) and " +
          "row 2 in line 6 (22 °C and over | any | 8 h) (step wait)",
      ],
    ],
  },
  {
    says: "an answer of “cannot tell”",
    book: `ask depth in mm, 0 to 50
ask damp of yes-no
    if unknown take yes because "Wet is the worse case"
step sand "Sand it" when damp
step wash "Wash it" when depth > 2 mm`,
    rows: [
      ["damp unknown; depth 3 mm", "ready"],
      ["damp yes; depth unknown", "waiting for depth"],
    ],
  },
  {
    says: "a chart without a row for the answer",
    book: `${ASKS}chart grit by depth gives um
    depth          | um
    under 10 mm    | 80
step sand "Sand with {grit}"`,
    rows: [
      ["", "waiting for depth"],
      ["depth 5 mm", "ready"],
      ["depth 20 mm", "impossible: no row of grit fits (step sand)"],
    ],
  },
];

const answersOf = (text: string): Record<string, string> =>
  Object.fromEntries(
    text
      .split(";")
      .map((one) => one.trim())
      .filter((one) => one !== "")
      .map((one) => [one.slice(0, one.indexOf(" ")), one.slice(one.indexOf(" ") + 1)]),
  );

/** State and reasons on one line: what a row of the table holds. */
function statusLine(text: string, answers: string): string {
  const evaluation = evaluationOf(workJob(readBook(text), answersOf(answers)));
  const { state, open, blocked } = jobStatus(evaluation);
  const waiting = open.length > 0 ? `waiting for ${asksWaitedFor(evaluation, open).join(", ")}` : undefined;
  const impossible =
    blocked.length > 0
      ? "impossible: " +
        blocked.map(({ reason, ids }) => `${reasonText(reason)} (${ids.join(", ")})`).join(", ")
      : undefined;
  switch (state) {
    case "stopped":
    case "referred":
      return [state, impossible, waiting].filter((one) => one !== undefined).join(", though ");
    case "impossible":
      return [impossible, waiting].filter((one) => one !== undefined).join(", though ");
    case "waiting":
      return waiting ?? state;
    case "ready":
      return state;
  }
}

describe.each(TABLE)("$says", ({ book, rows }) => {
  test.each(rows)("%j", (answers, status) => expect(statusLine(book, answers)).toBe(status));
});

test("only the books about charts and fallbacks with faults have an error", () => {
  const codes = TABLE.flatMap(({ book }) =>
    readBook(book).findings.flatMap((one) => (one.weight === "error" ? [`${one.code}: ${one.says}`] : [])),
  );
  expect(codes.map((one) => one.slice(0, one.indexOf(":")))).toEqual([
    "ask/fallback",
    "chart/overlap",
    "chart/overlap",
    "chart/overlap",
    "chart/overlap",
    "chart/hole",
  ]);
});

test("a referral that cannot be read withholds the steps as a stop does", () => {
  expect(statusLine('step sand "Sand it"\nrefer deep "Ask an engineer" when depth >>> 20 mm', "")).toMatch(
    /^impossible: a stop of the book cannot be read/,
  );
});
