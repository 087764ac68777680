// The figures of `npm run bench`, in one run: rivals in turn, medians of rounds. Started by run.ts.
import { all, create } from "mathjs";
import { cpus, loadavg } from "node:os";
import { type Book, readBook, showJob, why, workJob } from "../../engine/index.ts";
import { internalsOf, evaluationOf } from "../../engine/api/book.ts";
import { newFrame } from "../../engine/program/eval/frame.ts";
import { decidingNames } from "../../engine/program/eval/trace.ts";
import { runOperations } from "../../engine/program/eval/run-operations.ts";
import { asksOf, worker } from "../../engine/program/eval/evaluate.ts";
import { differences } from "./agree.ts";
import { bigBook, shippedText } from "./big-book.ts";
import {
  EXPRESSIONS,
  GIVEN_ASKS,
  GIVEN_CHARTS,
  RESINS,
  WORDS,
  libraryDials,
  libraryName,
} from "./expressions.ts";
import { work as byHand } from "./hand-written.ts";
import { plainJob, seeded, typedJob } from "./jobs.ts";
import { type Lap, race, ratio } from "./race.ts";

const quick = process.argv.includes("--quick");
const rounds = quick ? 3 : 11;

const ms = (x: number): string =>
  x >= 10 ? `${x.toFixed(0)} ms` : x >= 0.1 ? `${x.toFixed(2)} ms` : `${(x * 1000).toFixed(2)} µs`;
const aim = (met: boolean, text: string): string => `aim ${text}: ${met ? "met" : "missed"}`;
const line = (name: string, lap: Lap, more = "") =>
  console.log(
    `  ${name.padEnd(60)} ${ms(lap.time).padStart(9)} ${`(${ms(lap.clock)})`.padStart(12)}   ${more}`,
  );

console.log(
  `Bevelbook bench: ${cpus().length} x ${cpus()[0]?.model.trim() ?? "?"}, ` +
    `Node ${process.version}, load ${loadavg()[0]!.toFixed(1)}; medians of ${rounds} rounds, rivals in turn.`,
);
console.log(
  "Times are the lesser of clock and processor time, in brackets the clock, which on a shared " +
    "machine counts the others too.",
);

// ───────────── checking a book ─────────────

const shipped = shippedText();
const book = readBook(shipped);
const big = readBook(bigBook(0));
console.log(
  `\nChecking a book (5,000 lines: ${big.rows.length} statements, ${big.worked.length} worked ` +
    `examples, ${big.findings.filter((one) => one.weight === "error").length} errors)`,
);
{
  // Made beforehand: every round's text is new, so no statement is found already read.
  const texts = Array.from({ length: rounds + 2 }, (_, i) => bigBook(i + 1));
  const shippedTexts = Array.from({ length: rounds + 2 }, (_, i) =>
    shipped.replace(/because "/g, `because "${i} `),
  );
  const laps = race(
    { big: (i) => readBook(texts[i]!), small: (i) => readBook(shippedTexts[i]!) },
    { rounds, times: 1 },
  );
  line("5,000 lines whole, text never seen before", laps.big, aim(laps.big.time < 150, "under 150 ms"));
  line("the shipped book whole, most statements never seen before", laps.small);
  const edits = edited(big, bigBook(0), (rounds + 2) * 4);
  const small = edited(book, shipped, (rounds + 2) * 4);
  const after = race({ big: edits, small }, { rounds, times: 4 });
  line("5,000 lines after an edit of one statement", after.big);
  line("the shipped book after an edit of one statement", after.small);
}

/** Turns one taper back and forth, a new number each time: what depends on it is checked and worked again. */
function edited(first: Book, text: string, calls: number): (call: number) => Book {
  const row = first.rows.find((one) => one.name?.startsWith("bevel-taper"))!;
  let before = first;
  const texts = Array.from({ length: calls }, (_, i) =>
    text
      .slice(0, row.at.end)
      .concat(`\n    -- turned ${i}`, text.slice(row.at.end))
      .replace(/(dial house-taper[\w-]* = 1:)10/, `$1${10 + ((i % 50) + 1) / 10}`),
  );
  return (call) => (before = readBook(texts[call]!, before));
}

// ───────────── an edit, and all values of the jobs beside it ─────────────

/** Clock and processor, in ms; what lies between two of them is the lesser of the two. */
const now = () => {
  const { user, system } = process.cpuUsage();
  return { clock: performance.now(), busy: (user + system) / 1000 };
};
const since = (a: ReturnType<typeof now>, b: ReturnType<typeof now>): number =>
  Math.min(b.clock - a.clock, b.busy - a.busy);
const next = seeded(2024);
const plain = Array.from({ length: 200 }, () => plainJob(next));
console.log("\nAn edit to all values of 20 jobs laid alongside (a dial changes that most values hang on)");
for (const [name, start, text] of [
  ["the shipped book", book, shipped],
  ["5,000 lines", big, bigBook(0)],
] as const) {
  const bay = start === big ? "-bay1r0" : "";
  const answers = plain
    .slice(0, 20)
    .map((one) =>
      Object.fromEntries(Object.entries(typedJob(one)).map(([ask, typed]) => [ask + bay, typed])),
    );
  let before: Book = start;
  let jobs = answers.map((one) => workJob(start, one));
  const edit = edited(start, text, (rounds + 2) * 6);
  const laps: Record<"read" | "work" | "show", number[]> = { read: [], work: [], show: [] };
  const whole = race(
    {
      edit: (call) => {
        const t0 = now();
        before = edit(call);
        const t1 = now();
        jobs = jobs.map((job, i) => workJob(before, answers[i]!, job));
        const t2 = now();
        const views = jobs.map((job) => showJob(job));
        const t3 = now();
        laps.read.push(since(t0, t1));
        laps.work.push(since(t1, t2));
        laps.show.push(since(t2, t3));
        return views;
      },
    },
    { rounds, times: 4 },
  );
  const part = (of: readonly number[]): string => ms([...of].sort((a, b) => a - b)[of.length >> 1]!);
  const values = laps.read.map((x, i) => x + laps.work[i]!).sort((a, b) => a - b);
  const all = values[values.length >> 1]!;
  line(
    `${name}: edit, values of 20 jobs, all of them shown`,
    whole.edit,
    aim(whole.edit.time < 16, "under 16 ms"),
  );
  console.log(
    `    of this: reading ${part(laps.read)}, working 20 jobs ${part(laps.work)} ` +
      `(together ${ms(all)}: ${aim(all < 16, "under 16 ms")}), showing every value and ` +
      `card ${part(laps.show)}`,
  );
}

// ───────────── one job ─────────────

const typed = plain.map(typedJob);
let compared = 0;
plain.forEach((answers, i) => {
  const hand = byHand(answers);
  if (hand === undefined) throw new Error(`The hand-written rules do not work job ${i}.`);
  const off = differences(evaluationOf(workJob(book, typed[i]!)), hand);
  if (off.length > 0)
    throw new Error(`The hand-written rules differ from the engine in job ${i}:\n${off.join("\n")}`);
  compared +=
    Object.keys(hand.figures).length +
    Object.keys(hand.steps).length +
    Object.keys(hand.cautions).length +
    Object.keys(hand.stops).length +
    hand.promises.length +
    4 * hand.plies.length;
});
console.log(
  `\nOne job on the shipped book (${compared} values of ${plain.length} seeded jobs are the same by hand)`,
);
const { plan } = internalsOf(book);
const placed = typed.map((answers) => {
  const { frame } = evaluationOf(workJob(book, answers));
  return Float64Array.from(asksOf(plan), (block) => frame.num[block.answer]!);
});
const works = worker(plan);
placed.forEach((values, i) => {
  const [alone, many] = [evaluationOf(workJob(book, typed[i]!)).frame, works(values)];
  for (const block of plan.blocks)
    for (const place of [...block.outputs, block.when, block.takes, block.waits]) {
      if (place >= 0 && !Object.is(alone.num[place], many.num[place]))
        throw new Error(
          `Worked among many, ${block.id} of job ${i} is ${many.num[place]}; alone it ` +
            `is ${alone.num[place]}.`,
        );
    }
});
const n = plain.length;
{
  const laps = race(
    { engine: (i) => works(placed[i % n]!), hand: (i) => byHand(plain[i % n]!) },
    { rounds, times: 10_000 },
  );
  line("values, engine (answers as numbers, one frame for many jobs)", laps.engine);
  line(
    "values, the same rules hand-written in TypeScript",
    laps.hand,
    `engine ${ratio(laps.engine, laps.hand).toFixed(1)} ` +
      `times; ${aim(ratio(laps.engine, laps.hand) <= 5, "at most 5")}`,
  );
}
{
  const math = create(all!, {});
  const compiled = EXPRESSIONS.map(([name, text]) => [libraryName(name), math.compile(text)] as const);
  const scopes = plain.map((answers) => {
    const hand = byHand(answers)!;
    const scope = libraryDials();
    for (const name of GIVEN_ASKS)
      scope.set(
        libraryName(name),
        answers[name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase()) as keyof typeof answers],
      );
    for (const name of GIVEN_CHARTS) scope.set(libraryName(name), hand.figures[name]);
    for (const [name, words] of Object.entries(WORDS))
      scope.set(libraryName(name), words.indexOf(String(scope.get(libraryName(name)))));
    return scope;
  });
  const library = (i: number) => {
    const scope = scopes[i % n]!;
    for (let j = 0; j < compiled.length; j++) {
      const [name, code] = compiled[j]!;
      scope.set(name, code.evaluate(scope));
    }
    return scope;
  };
  plain.forEach((answers, i) => {
    const hand = byHand(answers)!.figures as Record<string, unknown>;
    const scope = library(i);
    for (const [name] of EXPRESSIONS) {
      const [a, b] = [
        name === "resin-type" ? RESINS.indexOf(String(hand[name])) : hand[name],
        scope.get(libraryName(name)),
      ];
      if (typeof a === "number" ? Math.abs(a - (b as number)) > 1e-6 * Math.max(1, Math.abs(a)) : a !== b)
        throw new Error(
          `The library gives ${String(b)} for ${name} of job ${i}, by hand it is ${String(a)}.`,
        );
    }
  });
  // The engine on the same figures: their operations alone, with the same answers and outcomes of charts set
  // before.
  const blocks = EXPRESSIONS.map(([name]) => plan.byId.get(`figure ${name}`)!);
  const subset = plan.blocks.filter((block) => blocks.includes(block)).flatMap((block) => [...block.ops]);
  const inputs = [
    ...asksOf(plan).flatMap((block) => [block.answer, ...block.outputs]),
    ...GIVEN_CHARTS.map((name) => {
      const [base, column] = name.split(".") as [string, string?];
      const block = plan.blocks.find((one) => one.id === `figure ${base}` || one.id === `chart ${base}`)!;
      return block.values[column === "heavy" ? 1 : 0]!.register;
    }),
  ];
  const frame = newFrame(plan);
  for (const block of asksOf(plan)) if (block.cannotTell >= 0) frame.num[block.cannotTell] = 0;
  for (const block of plan.blocks)
    if (block.entry.statement?.body?.keyword === "dial") runOperations(block.ops, frame);
  const given = typed.map((answers) => {
    const done = evaluationOf(workJob(book, answers)).frame;
    return Float64Array.from(inputs, (place) => done.num[place]!);
  });
  const engine = (i: number) => {
    const values = given[i % n]!;
    for (let j = 0; j < inputs.length; j++) frame.num[inputs[j]!] = values[j]!;
    runOperations(subset, frame);
    return frame;
  };
  for (let i = 0; i < n; i++) {
    const done = evaluationOf(workJob(book, typed[i]!)).frame;
    engine(i);
    for (const block of blocks)
      for (const place of block.outputs)
        if (!Object.is(done.num[place], frame.num[place]))
          throw new Error(
            `The engine's part of the book gives ${frame.num[place]} for ${block.id} of ` +
              `job ${i}, the whole book ${done.num[place]}.`,
          );
  }
  const laps = race({ engine, library }, { rounds, times: quick ? 50 : 400 });
  line(`values of ${EXPRESSIONS.length} figures without charts and list, engine`, laps.engine);
  line(
    "the same with mathjs, compiled expressions without units",
    laps.library,
    `engine ${ratio(laps.library, laps.engine).toFixed(0)} times as ` +
      `fast; ${aim(ratio(laps.library, laps.engine) >= 20, "at least 20")}`,
  );
}
{
  const shownNames = typed.map((answers) => [
    ...new Set(
      showJob(workJob(book, answers)).steps.flatMap((step) =>
        step.pieces.flatMap((piece) =>
          typeof piece === "string" || piece.name === undefined ? [] : [piece.name],
        ),
      ),
    ),
  ]);
  const ready = typed.map((_, i) => i).filter((i) => shownNames[i]!.length > 0);
  const at = (i: number) => ready[i % ready.length]!;
  const blocks = shownNames.map((names) =>
    names.map((name) => plan.byId.get(plan.checked.entries[plan.checked.byName.get(name)!]!.id)!),
  );
  const laps = race(
    {
      values: (i) => workJob(book, typed[at(i)]!),
      facts: (i) => {
        const job = workJob(book, typed[at(i)]!);
        const { frame } = evaluationOf(job);
        return blocks[at(i)]!.map((block) => decidingNames(plan, frame, block));
      },
      trace: (i) => {
        const job = workJob(book, typed[at(i)]!);
        return shownNames[at(i)]!.map((name) => why(job, name, "deciding"));
      },
      full: (i) => {
        const job = workJob(book, typed[at(i)]!);
        return shownNames[at(i)]!.map((name) => why(job, name, "full"));
      },
      one: (i) => {
        const job = workJob(book, typed[at(i)]!);
        return why(job, shownNames[at(i)]![0]!, "deciding");
      },
      show: (i) => showJob(workJob(book, typed[at(i)]!)),
    },
    { rounds, times: quick ? 5 : 40 },
  );
  const figures = Math.round(
    ready.reduce((sum, i) => sum + shownNames[i]!.length, 0) / Math.max(1, ready.length),
  );
  console.log(
    `  From typed answers, on the ${ready.length} of ${n} jobs that reach a card (${figures} ` +
      `figures on it on average):`,
  );
  line("values (answers read, a frame of its own)", laps.values);
  line(
    "values, and what decided every figure of the card, as data",
    laps.facts,
    `${ratio(laps.facts, laps.values).toFixed(1)} times ` +
      `values; ${aim(ratio(laps.facts, laps.values) <= 3, "at most 3")}`,
  );
  line(
    "values, and one figure asked why in full words",
    laps.one,
    `${ratio(laps.one, laps.values).toFixed(1)} times values`,
  );
  line(
    "values, and every figure asked why, deciding facts in words",
    laps.trace,
    `${ratio(laps.trace, laps.values).toFixed(1)} times values`,
  );
  line(
    "values, and every figure asked why, everything in words",
    laps.full,
    `${ratio(laps.full, laps.values).toFixed(1)} times values`,
  );
  line(
    "values, and all of them and the card as texts",
    laps.show,
    `${ratio(laps.show, laps.values).toFixed(1)} times values`,
  );
}
