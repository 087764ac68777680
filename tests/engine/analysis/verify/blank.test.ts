// Every state of every question: in range, left blank, or "cannot tell". Each book is the smallest of its
// sort; the verdicts are worked out by hand.
import { expect, test } from "vitest";
import { readBook, showJob, relevantQuestionsOf, workJob } from "../../../../engine/index.ts";
import { brokenBy, promises, sound, standing } from "../support/standing.ts";

const NOT_READ = `book not-read, edition 1
    "Not read"
ask damp in %, 0 to 100
    "Humidity"
figure flash in min = 10 min if damp is known, otherwise 15 min
step wipe "Wipe, flash {flash}"
    from practice
promise flash <= 10 min
`;

test("not-read: a promise that an ask left blank breaks is broken, with the ask not answered", () => {
  const book = sound(NOT_READ);
  const [promise] = promises(book);
  expect(promise).toMatchObject({ verdict: "broken", job: { damp: "" } });
  expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
});

test("not-read: what only a job with the ask left blank reaches is reached", () => {
  expect(standing(sound(NOT_READ)).never).toEqual([]);
});

test("not-read: what neither an answer nor a blank reaches is still called unreached", () => {
  const text = NOT_READ.replace("otherwise 15 min", "15 min if damp is not known, otherwise 20 min");
  expect(standing(sound(text)).never.map((one) => one.says)).toEqual([
    "No job reaches flash: otherwise 20 min.",
  ]);
});

const KEY = `book key, edition 1
    "Key"
kind sort
    a "A"
    b "B"
ask soft of yes-no
    "Soft?"
chart key by soft gives sort
    keep every row that fits
    soft | key
    yes  | a
    no   | b
    from practice
step look "Look"
    from practice
promise count of key <= 1
promise count of key <= 2
promise first of key is a or not soft
`;

test("key: one answer leaves one row, none leaves two", () => {
  expect(promises(sound(KEY)).map((one) => [one.verdict, one.job])).toEqual([
    ["broken", { soft: "" }],
    ["proved", undefined],
    ["proved", undefined],
  ]);
});

const OUTSIDE = (take: string) => `book outside, edition 1
    "Outside"
ask width in mm, 1 to 100
    "Width"
ask thickness in mm, 1 to 12
    "Thickness"
    if unknown take ${take} because "Half the width"
figure bevel in mm = 10 * thickness
step grind "Grind {bevel}"
    from practice
promise bevel <= 120 mm
`;

test("outside: a fallback that leaves the range of its ask is covered", () => {
  const book = readBook(OUTSIDE("width / 2"));
  const [promise] = promises(book);
  expect(promise!.verdict).toBe("broken");
  expect(promise!.job!.thickness).toBe("unknown");
  expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
});

test("outside: a fallback that stays within the range breaks nothing", () => {
  expect(promises(sound(OUTSIDE("smallest(width, 12 mm)")))[0]!.verdict).toBe("proved");
  expect(promises(sound(OUTSIDE("12 mm")))[0]!.verdict).toBe("proved");
});

const CHAIN = `book chain, edition 1
    "Chain"
kind sort
    a "A"
    b "B"
ask one of sort
    "One"
ask two of sort
    "Two"
ask three of yes-no
    "Three"
figure both of yes-no = yes if one is a and two is a, otherwise no
figure rest in min = 1 min if both is known and three, 2 min if both is known, otherwise 5 min
step wait "Wait {rest}"
    from practice
`;

test.each([
  ["rest <= 2 min", "broken"],
  ["rest <= 5 min", "proved"],
  // With a no in one of the two, both is known whatever the other is.
  ["rest <= 2 min or not (one is b) or three is not known", "proved"],
  ["rest <= 2 min or three is known", "broken"],
] as const)("chain: %s is %s", (rule, verdict) => {
  const book = sound(`${CHAIN}promise ${rule}\n`);
  const [promise] = promises(book);
  expect(promise!.verdict, JSON.stringify(promise)).toBe(verdict);
  if (verdict === "broken") expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
});

test("chain: every pattern of blanks and answers agrees with the verdict", () => {
  const book = sound(`${CHAIN}promise rest <= 2 min or one is not known or two is not known\n`);
  const [promise] = promises(book);
  let broken = 0;
  for (const one of ["", "a", "b"])
    for (const two of ["", "a", "b"])
      for (const three of ["", "yes", "no"]) if (brokenBy(book, { one, two, three }, promise!.id)) broken++;
  expect(promise!.verdict).toBe(broken === 0 ? "proved" : "broken");
});

test("an ask that the card waits for is never called needless", () => {
  const book = sound(`book waiting, edition 1
    "Waiting"
ask width in mm, 1 to 100
    "Width"
ask other in mm, 1 to 100
    "Other"
ask thickness in mm, 1 to 12
    "Thickness"
    if unknown take smallest(other, 12 mm) because "Not more than the other"
step grind "Grind"
    when width <= 200 mm and thickness <= 5 mm
    from practice
`);
  const asked = (answers: Readonly<Record<string, string>>) => {
    const job = workJob(book, answers);
    const view = relevantQuestionsOf(job);
    return [showJob(job).state, [...view.ask].sort(), [...view.needless].sort()];
  };
  // Every width is below 200 mm, but an ask without an answer is below nothing.
  expect(asked({ thickness: "3 mm" })).toEqual(["waiting", ["width"], ["other"]]);
  expect(asked({ thickness: "8 mm" })).toEqual(["ready", [], ["other", "width"]]);
  expect(asked({ width: "3 mm", thickness: "unknown" })).toEqual(["waiting", ["other"], []]);
});

const TAKEN = (clause: string, promise: string) => `book taken, edition 1
    "Taken"
ask damp in %, 0 to 60
    "Humidity"
    ${clause}
figure flash in min = 15 min if damp >= 50 %, otherwise 10 min
step wipe "Wipe, flash {flash}"
    from practice
promise ${promise}
`;

test("what is taken for a blank breaks what it breaks, in a job with the ask not answered", () => {
  const book = sound(TAKEN("if blank take 55 %", "flash <= 10 min or damp < 55 % or damp > 55 %"));
  const [promise] = promises(book);
  expect(promise!.verdict).toBe("broken");
  expect(brokenBy(book, promise!.job!, promise!.id)).toBe(true);
  expect(showJob(workJob(book, {})).broken).toHaveLength(1);
});

test("a blank that takes something is known; cannot tell is not, unless it takes something too", () => {
  const told = (clause: string) => promises(sound(TAKEN(clause, "damp is known")))[0]!;
  expect(told("if blank take 55 %")).toMatchObject({ verdict: "broken", job: { damp: "unknown" } });
  expect(told("if unknown take 55 %")).toMatchObject({ verdict: "broken", job: { damp: "" } });
  expect(told("if blank or unknown take 55 %").verdict).toBe("proved");
});

test("a rule for a blank that can leave the range is found", () => {
  const text = `book far, edition 1
    "Far"
ask width in mm, 1 to 100
    "Width"
ask thick in mm, 1 to 12
    "Thick"
    if blank take width / 2
step go "Go {thick}"
    from practice
promise thick <= 12 mm
`;
  const [promise] = promises(sound(text));
  expect(promise).toMatchObject({ verdict: "broken", job: { thick: "" } });
  expect(showJob(workJob(sound(text), { width: "80 mm" })).state).toBe("impossible");
});

test("the first that is known is proved over every pattern of blanks", () => {
  const text = `book first, edition 1
    "First"
ask maker in mm, 1 to 12
    "By the maker"
ask measured in mm, 2 to 10
    "Measured"
figure thick in mm = first known of maker, measured
figure least in mm = smallest known of maker, measured
figure seen in count = count known of maker, measured
step go "Go {thick} {least} {seen}"
    from practice
promise least <= thick
promise seen <= 2
promise seen >= 1
promise thick <= 11 mm
`;
  expect(promises(sound(text)).map((one) => one.verdict)).toEqual(["proved", "proved", "broken", "broken"]);
});
