// The terminal program as a person calls it: what it prints, its exit codes, and the shape of its data.
import { spawn } from "node:child_process";
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { z } from "zod";
import { checkReport, traceReport, comparisonReport, workReport } from "../../../core/schemas/report.ts";
import { tidy } from "../../../engine/index.ts";
import { type Outcome, callIn } from "./support/call.ts";

const PROGRAM = fileURLToPath(new URL("../../../editor/terminal/bevelbook.mjs", import.meta.url));

const BOOK = `book yard, edition 2
    "An invented yard"
ask depth in mm, 0 to 20
    "How deep?"
figure width in mm = depth run out at 1:12
step grind "Grind {width} all round"
    takes 20 min
    waits 1 h
caution dust "Wear a mask"
stop deep "Too deep" when depth > 15 mm
promise width <= 200 mm or stopped
worked six "Six"
    with depth 6 mm
    gives width 72 mm, ready
`;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "bevelbook-"));
  const files: Record<string, string | Uint8Array> = {
    "yard.bevel": BOOK,
    "bad.bevel": `${BOOK}figure odd = 3 mm + 2 kg\n`,
    "untidy.bevel": "figure   a=3 mm\n",
    "utf16.bevel": Buffer.from(`\ufeff${BOOK}`, "utf16le"),
    "latin.bevel": Buffer.from([0x70, 0x61, 0x72, 0x74, 0x20, 0xe9, 0xff]),
    "bom.bevel": `\ufeff${BOOK}`,
    "crlf.bevel": BOOK.replaceAll("\n", "\r\n"),
    "empty.bevel": "",
    "later.bevel": BOOK.replace("edition 2", "edition 3")
      .replace("run out at 1:12", "run out at 1:10")
      .replace("> 15 mm", "> 5 mm"),
    "log.json": '{"shallow": {"depth": "2 mm"}, "deep": {"depth": 18}}',
    "log-list.json": '[{"name": "shallow", "answers": {"depth": "2 mm"}}]',
    "care.bevel": [
      'book care, edition 1\n    "Care"',
      'ask damp in %, 0 to 100\n    "Humidity"',
      'step go "Go"\n    from practice',
      'caution dry "Keep it dry" when damp > 80 %\n    from practice\n',
    ].join("\n"),
    "engine.bevel": [
      'book engine, edition 1\n    "Engine"',
      'ask engine in kW, 1 to 200\n    "Engine power"',
      "figure power in kW = engine if engine is known, otherwise 99 kW",
      'step go "Use {power}"\n    from practice\n',
    ].join("\n"),
    "loose.json": '{"depth": "14.9 mm ± 0.2 mm"}',
    "six.json": '{"depth": "6 mm"}',
    "number.json": '{"depth": 6}',
    "deep.json": '{"depth": "16 mm"}',
    "none.json": "{}",
    "wrong.json": '{"depth": "6 kg", "dept": "3 mm"}',
    "broken.json": '{"depth": ',
    "list.json": '["depth"]',
    "nested.json": '{"depth": {"a": 1}}',
    "proto.json": '{"__proto__": "6 mm", "constructor": "6 mm"}',
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const call = (args: readonly string[], input?: string | Uint8Array): Promise<Outcome> =>
  callIn(folder, args, input);

/** A real start of the program, for what a call in this process cannot show. */
function start(args: readonly string[], input?: string): Promise<Outcome> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], { cwd: folder });
    let [out, err] = ["", ""];
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("close", (code) => done({ code: code ?? -1, out, err }));
    child.stdin.on("error", () => {}).end(input);
  });
}

const json = async <T extends z.ZodType>(schema: T, args: readonly string[]) => {
  const { code, out } = await call(args);
  return { code, data: schema.parse(JSON.parse(out)) as z.infer<T> };
};

test("check prints the findings under the words they are about; 0 without, 1 with", async () => {
  const good = await call(["check", "yard.bevel"]);
  expect(good).toEqual({
    code: 0,
    out: "yard, edition 2: 8 statements, 1 worked example (1 pass), no findings.\n",
    err: "",
  });
  const bad = await call(["check", "bad.bevel"]);
  expect(bad.code).toBe(1);
  expect(bad.out).toContain(
    "    figure odd = 3 mm + 2 kg\n                 ^^^^^^^^^^^\n  Cannot add these two",
  );
});

test("the program as it is started: its streams, its folder and its exit code", async () => {
  for (const [args, input] of [
    [["work", "yard.bevel", "--job", "-", "--json"], '{"depth": "6 kg"}'],
    [["check", "yard.bevel", "--loud"]],
  ] as const)
    expect(await start(args, input), args.join(" ")).toEqual(await call(args, input));
}, 120_000);

test("check --json is what its schema says", async () => {
  const { code, data } = await json(checkReport.strict(), ["check", "bad.bevel", "--json"]);
  expect(code).toBe(1);
  expect(data.findings.map(({ code: kind, line }) => [kind, line])).toContainEqual(["unit/mismatch", 15]);
  expect(data.worked).toEqual({ pass: 1, fail: 0 });
});

test("work prints a card, and works alike from text and from data", async () => {
  const card = await call(["work", "yard.bevel", "--job", "six.json", "--values"]);
  expect(card.code).toBe(0);
  expect(card.out).toContain("This job is ready.");
  expect(card.out).toContain("1. Grind 72 mm all round (takes 20 min, then wait 1 h)");
  expect(card.out).toContain("width: 72 mm");
  const { code, data } = await json(workReport.strict(), [
    "work",
    "yard.bevel",
    "--job",
    "number.json",
    "--json",
  ]);
  expect(code).toBe(0);
  expect(data.state).toBe("ready");
  expect(data.values.width).toEqual({ text: "72 mm", value: 72, unit: "mm", state: "known" });
  expect(data.steps.map((step) => [step.name, step.takes, step.waits])).toEqual([["grind", "20 min", "1 h"]]);
});

test.each([
  ["deep.json", 0, "stopped"],
  ["none.json", 0, "waiting"],
  ["wrong.json", 1, "impossible"],
  ["proto.json", 1, "waiting"],
])("work on %s exits %i: %s, and releases no step", async (job, code, state) => {
  const worked = await json(workReport, ["work", "yard.bevel", "--job", job, "--json"]);
  expect([worked.code, worked.data.state, worked.data.steps]).toEqual([code, state, []]);
});

test("an answer that cannot be used is not a missing one: no card, and which answer to mend", async () => {
  const refused = await call(["work", "engine.bevel", "--job", "-"], '{"engine": "40 kg"}');
  expect(refused.code).toBe(1);
  expect(refused.out).toContain(
    "This job is impossible.\n  ! Answer again: engine is a power in kW; “40 kg” is a mass. " +
      "Write for example 100 kW. (ask engine",
  );
  expect(refused.out).not.toContain("99 kW");
  const missing = await call(["work", "engine.bevel", "--job", "-"], "{}");
  expect(missing).toMatchObject({ code: 0, out: expect.stringContaining("1. Use 99 kW") });
  const why = await call(["why", "engine.bevel", "power", "--job", "-"], '{"engine": "40 kg"}');
  expect(why).toMatchObject({ code: 1, out: expect.stringContaining("“40 kg” is a mass.") });
});

test("a caution whose condition is open holds nothing back: it is shown as one that may apply", async () => {
  const args = ["work", "care.bevel", "--job", "-"];
  const worked = await call(args, "{}");
  expect(worked.code).toBe(0);
  expect(worked.out).toContain("This job is ready.");
  expect(worked.out).toContain("! may apply, waits for damp: Keep it dry");
  const cautions = async (answers: string) => {
    const { out } = await call([...args, "--json"], answers);
    return workReport.parse(JSON.parse(out)).cautions.map(({ name, mayApply }) => [name, mayApply]);
  };
  expect(await cautions("{}")).toEqual([["dry", ["damp"]]]);
  expect(await cautions('{"damp": "90 %"}')).toEqual([["dry", undefined]]);
  expect(await cautions('{"damp": "10 %"}')).toEqual([]);
});

test("work in the units asked for", async () => {
  const { data } = await json(workReport, [
    "work",
    "yard.bevel",
    "--job",
    "six.json",
    "--units",
    "us",
    "--json",
  ]);
  expect(data.values.width).toMatchObject({ unit: "inch", text: "2.835 inch" });
});

test("why tells what decided, in text and as data, from the deciding facts to all of it", async () => {
  const told = await call(["why", "yard.bevel", "width", "--job", "six.json"]);
  expect(told).toMatchObject({ code: 0, err: "" });
  expect(told.out).toContain("width is 72 mm\n  = 6 mm run out at 1:12");
  const line = await call(["why", "yard.bevel", "step", "grind", "--job", "six.json"]);
  expect(line).toEqual(await call(["why", "yard.bevel", "grind", "--job", "six.json"]));
  expect(line.out).toContain("grind");
  const { code, data } = await json(traceReport.strict(), [
    "why",
    "yard.bevel",
    "grind",
    "--job",
    "six.json",
    "--full",
    "--json",
  ]);
  expect([code, data.depth, data.steps[0]!.id]).toEqual([0, "full", "step grind"]);
});

test("tidy prints the text evenly, and writes it back only when told to", async () => {
  expect(await call(["tidy", "untidy.bevel"])).toEqual({ code: 0, out: "figure a = 3 mm\n", err: "" });
  expect(readFileSync(join(folder, "untidy.bevel"), "utf8")).toBe("figure   a=3 mm\n");
  const written = await call(["tidy", "untidy.bevel", "--write", "--json"]);
  expect(JSON.parse(written.out)).toEqual({ file: "untidy.bevel", changed: true });
  expect(readFileSync(join(folder, "untidy.bevel"), "utf8")).toBe("figure a = 3 mm\n");
  expect((await call(["tidy", "crlf.bevel"])).out).toBe(tidy(BOOK));
});

test("a file named - is standard input", async () => {
  expect((await call(["check", "-"], BOOK)).code).toBe(0);
  expect((await call(["tidy", "-"], "figure a=1")).out).toBe("figure a = 1\n");
  const { code, out } = await call(["work", "yard.bevel", "--job", "-", "--json"], '{"depth": "6 mm"}');
  expect([code, JSON.parse(out).state]).toEqual([0, "ready"]);
});

test.each([
  ["nothing at all", []],
  ["no such command", ["mend", "yard.bevel"]],
  ["no file", ["check"]],
  ["a file that is not there", ["check", "gone.bevel"]],
  ["a folder", ["check", "."]],
  ["two bytes a letter", ["check", "utf16.bevel"]],
  ["an old encoding", ["check", "latin.bevel"]],
  ["no job", ["work", "yard.bevel"]],
  ["a job that is no JSON", ["work", "yard.bevel", "--job", "broken.json"]],
  ["a job that is a list", ["work", "yard.bevel", "--job", "list.json"]],
  ["a job of more than answers", ["work", "yard.bevel", "--job", "nested.json"]],
  ["units of no system", ["work", "yard.bevel", "--job", "six.json", "--units", "imperial"]],
  ["an option that is not there", ["check", "yard.bevel", "--loud"]],
  ["why of nothing", ["why", "yard.bevel", "--job", "six.json"]],
  ["why of what the book has not", ["why", "yard.bevel", "widht", "--job", "six.json"]],
  ["standard input written back", ["tidy", "-", "--write"]],
])("%s is a wrong call: exit 2, one sentence, no stack", async (_what, args) => {
  const { code, out, err } = await call(args, "");
  expect(code).toBe(2);
  const said = args.length === 0 ? out : err;
  expect(said.trim()).toMatch(/^\S.{10,}/);
  expect(said).not.toMatch(/\n\s+at |node:internal|TypeError/);
});

test("an option that is not there is named, without advice about dashes", async () => {
  const { err } = await call(["check", "yard.bevel", "--loud"]);
  expect(err).toMatch(/^There is no option --loud here\. Usage: bevelbook check BOOK .*\n$/);
});

test("odd but readable texts are read", async () => {
  expect((await call(["check", "bom.bevel"])).code).toBe(0);
  expect((await call(["check", "crlf.bevel"])).code).toBe(0);
  expect((await call(["check", "empty.bevel"])).code).toBe(0);
});

test("help is there for the program and each command", async () => {
  for (const args of [["help"], ["--help"], ["check", "--help"], ["work", "-h"]]) {
    const { code, out } = await call(args);
    expect([code, /bevelbook/.test(out)]).toEqual([0, true]);
  }
});

test("a reader that has seen enough closes the pipe in peace", async () => {
  const many = Array.from({ length: 3_000 }, (_, i) => `figure odd-${i} = 3 mm + 2 kg`).join("\n");
  writeFileSync(join(folder, "many.bevel"), many);
  const child = spawn(process.execPath, [PROGRAM, "check", "many.bevel"], { cwd: folder });
  let err = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    err += text;
  });
  child.stdout.once("data", () => child.stdout.destroy());
  await new Promise((done) => {
    child.on("close", done);
  });
  expect(err).toBe("");
}, 120_000);

test("a file that may not be read or written says so", async () => {
  if (process.getuid?.() === 0) return; // The one user whom no file refuses.
  writeFileSync(join(folder, "locked.bevel"), "figure   a = 1");
  chmodSync(join(folder, "locked.bevel"), 0o000);
  expect((await call(["check", "locked.bevel"])).code).toBe(2);
});

test("weigh tells what two editions write otherwise and what each change does to which job", async () => {
  const { code, out } = await call([
    "weigh",
    "yard.bevel",
    "later.bevel",
    "--jobs",
    "log.json",
    "--spread",
    "0",
  ]);
  // The new edition's own example fails by the new rule.
  expect(code).toBe(1);
  expect(out).toBe(`yard, edition 2 against yard, edition 3

What is written otherwise
  1.  figure width: depth run out at 1:12 becomes depth run out at 1:10
      moves 3 jobs
  2.  stop deep: when depth > 15 mm becomes depth > 5 mm
      moves 1 job

What it does
  worked examples: 1 of 1 come out otherwise
  logged jobs: 2 of 2

worked example six: ready becomes stopped
    width: 72 mm becomes 60 mm  (by 1)
    stop deep: does not apply becomes Too deep  (by 2)

logged job shallow, ready
    width: 24 mm becomes 20 mm  (by 1)
    step grind: Grind 24 mm all round · 20 min · 1 h becomes Grind 20 mm all round · 20 min · 1 h  (by 1)

logged job deep, stopped
    width: 216 mm becomes 180 mm  (by 1)

yard, edition 3 has errors: see bevelbook check.
`);
});

test("weigh over many jobs of a log reports progress, and lays each job at its change", async () => {
  const jobs = Array.from({ length: 1200 }, (_, n) => ({
    name: `job ${n}`,
    answers: { depth: `${n % 20} mm` },
  }));
  writeFileSync(join(folder, "many.json"), JSON.stringify(jobs));
  const { out, err } = await call([
    "weigh",
    "yard.bevel",
    "later.bevel",
    "--jobs",
    "many.json",
    "--spread",
    "0",
    "--json",
  ]);
  expect(err.split("\n")).toContain("weighed 1000 of 1201 jobs");
  const data = comparisonReport.strict().parse(JSON.parse(out));
  // A depth of nothing runs out at once by both tapers; every other is moved, and by more than 5 mm the stop
  // comes as well.
  expect([data.done, data.counts.logged]).toEqual([true, { worked: 1200, moved: 1140 }]);
  expect(data.moved.filter((job) => job.from === "logged").map((job) => job.name)).toEqual(
    jobs.filter(({ answers }) => answers.depth !== "0 mm").map(({ name }) => name),
  );
  for (const job of data.moved)
    expect(
      job.outputs.some((one) => one.name === "width" && one.by.join() === "0"),
      job.name,
    ).toBe(true);
});

test("a book weighed against an empty text loses each step by itself", async () => {
  const { code, out, err } = await call([
    "weigh",
    "yard.bevel",
    "empty.bevel",
    "--jobs",
    "log.json",
    "--spread",
    "20",
  ]);
  expect(err).not.toMatch(/\n\s+at /);
  expect(code).toBe(0);
  expect(out).toContain("yard, edition 2 against a text that names no book");
  expect(out).toMatch(/step \S+: .* becomes does not apply/);
  expect((await call(["work", "empty.bevel", "--job", "none.json"])).out).toMatch(
    /^The text names no book\.\n/,
  );
});

test("weigh --json is what its schema says, and a made-up spread is the same each time", async () => {
  const { data } = await json(comparisonReport.strict(), [
    "weigh",
    "yard.bevel",
    "later.bevel",
    "--jobs",
    "log-list.json",
    "--spread",
    "20",
    "--json",
  ]);
  expect(data.counts.logged).toEqual({ worked: 1, moved: 1 });
  expect(data.counts.spread.worked).toBe(20);
  expect(data.reached).toBe(data.toReach);
  const again = await json(comparisonReport.strict(), [
    "weigh",
    "yard.bevel",
    "later.bevel",
    "--jobs",
    "log-list.json",
    "--spread",
    "20",
    "--json",
  ]);
  expect(again.data).toEqual(data);
});

test.each([
  [["weigh", "yard.bevel"], "Name two books"],
  [["weigh", "-", "-"], "Only one of the two"],
  [["weigh", "yard.bevel", "later.bevel", "--jobs", "six.json"], "holds no jobs"],
  [["weigh", "yard.bevel", "later.bevel", "--jobs", "broken.json"], "is not JSON"],
  [["weigh", "yard.bevel", "later.bevel", "--spread", "many"], "--spread is a whole number"],
])("weigh called wrongly says how: %j", async (args, says) => {
  const { code, err } = await call(args);
  expect(code).toBe(2);
  expect(err).toContain(says);
});

test("a job whose tolerance reaches a stop waits and says where it turns, in words and data", async () => {
  const { code, out } = await call(["work", "yard.bevel", "--job", "loose.json"]);
  expect(code).toBe(0);
  expect(out).toContain("This job is waiting.");
  expect(out).toContain("? whether stop deep holds turns within the tolerance: measure again");
  expect(out).toContain("It turns at 15 mm, 0.1 mm from the answer.");
  expect(out).toContain("It waits for: depth.");
  expect(out).not.toContain("Grind");
  const data = workReport.parse(
    JSON.parse((await call(["work", "yard.bevel", "--job", "loose.json", "--json"])).out),
  );
  expect(data.doubts?.open.map((one) => one.id)).toEqual(["stop deep"]);
  expect(data.doubts?.measureAgain).toBe("depth");
});
