// The law of layers: a layer over a book gives, for every job, what the book gives that a hand has put
// together from the two; and a layer read after an edit is what it is from nothing.
import { expect, test } from "vitest";
import { readBook, showJob, why, workJob } from "../../../engine/index.ts";
import type { Book } from "../../../engine/index.ts";
import { type Chance, chance } from "../../support/chance.ts";
import { type RandomBook, randomAnswers, randomBook } from "../../support/random-book.ts";

interface Both {
  /** The statements of the layer. */
  readonly layer: string[];
  /** The statements of the book put together by hand. */
  merged: string[];
}

const single = (statements: readonly string[]): string[] => statements.join("\n").split(/\n(?=\S)/);

/** A condition on some answer. */
function condition(by: Chance, asks: RandomBook["asks"]): string {
  const { name, answers } = by.pick(asks);
  const plain = answers.filter((one) => !/±|unknown/.test(one));
  const one = by.pick(plain);
  return /^[a-z]/.test(one)
    ? `${name} is ${one}`
    : /[a-z%°]/.test(one)
      ? `${name} ${by.pick(["<", ">="])} ${one}`
      : `not (${name} is known)`;
}

const bumped = (by: Chance, rule: string): string =>
  rule.replace(/(?<![\w-])(\d+)(?= (?:mm|g|min)\b)/g, (digits) =>
    by.odds(0.6) ? String(Number(digits) + 1) : digits,
  );

interface Layering {
  readonly by: Chance;
  readonly asks: RandomBook["asks"];
  readonly both: Both;
  /** What this layer has changed already. */
  readonly touched: Set<string>;
  /** Which layer it is, from 1. */
  readonly number: number;
}

/**
 * One thing that a layer can do to the statement at `at`, and the same by hand; false where it cannot be done
 * to it.
 */
function change(layering: Layering, at: number): boolean {
  const { by, asks, both, touched, number } = layering;
  const text = both.merged[at]!;
  const [, word, name] = /^(\w+) ([\w-]+)/.exec(text) ?? [];
  if (word === undefined || name === undefined || touched.has(`${word} ${name}`) || /-was\d*$/.test(name))
    return false;
  touched.add(`${word} ${name}`);
  const put = (...statements: string[]) => {
    both.merged = both.merged.flatMap((one, i) => (i === at ? statements : [one]));
  };
  const when = condition(by, asks);
  switch (word) {
    case "figure": {
      const [, head, rule] = /^(figure [^=]*)= (.*)/.exec(text)!;
      const was = `${name}-was${number}`;
      const under = text.replaceAll(name, was);
      // A layer cannot name what an earlier one has put underneath: there it says as-before.
      const other = /-was\d/.test(rule!) ? undefined : bumped(by, rule!);
      const [here, there] = [other ?? "as-before", other ?? was];
      const [own, merged] = by.pick<readonly [string, string]>([
        [
          `instead figure ${name} = (${here}) if ${when}, otherwise as-before`,
          `${head}= (${there}) if ${when}, otherwise ${was}`,
        ],
        [`instead ${head}= ${here} when ${when}`, `${head}= (${there}) if ${when}, otherwise ${was}`],
        [`instead ${head}= ${here}`, `${head}= ${there}`],
        [`instead figure ${name} = as-before when ${when}`, `${head}= ${was} if ${when}, otherwise ${was}`],
      ]);
      both.layer.push(own);
      put(...(merged.includes(was) ? [under] : []), merged);
      return true;
    }
    case "dial": {
      const value = by.pick(["3", "7", "19"]);
      const moved = text.replace(/= (\d+)/, `= ${value}`);
      both.layer.push(`instead dial ${name} = ${/= ([\d.]+(?: \S+?)?),/.exec(moved)![1]}\n    from practice`);
      put(moved);
      return true;
    }
    case "step":
    case "caution":
    case "stop": {
      const because = word === "step" ? "" : '\n    because "The yard knows"';
      if (by.odds(0.3)) {
        if (both.merged.some((one) => new RegExp(`with step ${name}\\b`).test(one))) return false;
        // What an earlier layer left in force elsewhere goes with it.
        both.layer.push(`drop ${word} ${name}${because}`);
        put();
        both.merged = both.merged.filter((one) => !new RegExp(`^${word} ${name}-was`).test(one));
        return true;
      }
      // Words alone may be replaced: then the line applies when it did.
      if (by.odds(0.3) && !both.merged.some((one) => new RegExp(`^${word} ${name}-was`).test(one))) {
        both.layer.push(`instead ${word} ${name} "In other words"${because}`);
        put(text.split("\n")[0]!.replace(/"[^"]*"/, '"In other words"'));
        return true;
      }
      const firstLine = text.split("\n")[0]!;
      // A step keeps the condition that it had: written out, or as as-before.
      const had = word === "step" ? / when (.*)$/.exec(firstLine)?.[1] : undefined;
      const isFirst = !both.merged.some((one) => new RegExp(`^${word} ${name}-was`).test(one));
      const now = had === undefined ? when : `(${when}) and (${had})`;
      const layered = had !== undefined && isFirst && by.odds(0.5) ? `(${when}) and as-before` : now;
      const line = (condition: string) => `${word} ${name} "Otherwise ${number}" when ${condition}`;
      const own = line(now);
      const rest = text.slice(firstLine.length);
      // The line underneath goes on where none above it applies.
      const gives = (line: string) =>
        / when /.test(line)
          ? line.replace(/ when (.*)$/m, (_, rule) => ` when (${rule}) and not (${now})`)
          : `${line} when not (${now})`;
      const under = gives(firstLine);
      both.merged = both.merged.map((one) =>
        new RegExp(`^${word} ${name}-was`).test(one) ? gives(one) : one,
      );
      both.layer.push(`instead ${line(layered)}${because}`);
      const was = `${name}-was${number}`;
      both.merged = both.merged.map((one) =>
        one.replace(new RegExp(`with step ${name}(?![\\w-])`), `with step ${name}, ${was}`),
      );
      put(under.replace(`${word} ${name}`, `${word} ${was}`) + rest, own);
      return true;
    }
    case "chart": {
      const lines = text.split("\n");
      const first = lines.findIndex((line) => line.includes("|")) + 1;
      const rows = lines.map((_, i) => i).filter((i) => i >= first && lines[i]!.includes("|"));
      if (rows.length === 0) return false;
      const i = by.pick(rows);
      const cells = lines[i]!.split("|");
      if (!/^\s*\d+\s*$/.test(cells.at(-1)!)) return false;
      const row = [...cells.slice(0, -1), ` ${Number(cells.at(-1)) + 3}`].join("|");
      // Where the first row wins, two rows of the same conditions may follow each other: the first gives way.
      const key = cells
        .slice(0, -1)
        .map((cell) => cell.trim())
        .join("|");
      const twins = rows.filter(
        (r) =>
          lines[r]!.split("|")
            .slice(0, -1)
            .map((cell) => cell.trim())
            .join("|") === key,
      );
      if (twins.length > 1) return false;
      both.layer.push(`chart ${name} add\n    ${row.trim()}`);
      put(lines.map((line, n) => (n === i ? row : line)).join("\n"));
      return true;
    }
    default:
      return false;
  }
}

const errorsIn = (book: Book) =>
  book.findings.filter((one) => one.weight === "error").map((one) => `${one.code}: ${one.says}`);

/** What of a job does not hang on how the book is written down. */
function outcome(book: Book, answers: Record<string, string>) {
  const view = showJob(workJob(book, answers));
  const line = ({ text, takes }: { text: string; takes?: string }) => `${text}${takes ?? ""}`;
  return {
    state: view.state,
    steps: view.steps.map(line),
    cautions: view.cautions.map(line),
    stops: view.stops.map(line),
    broken: view.broken.map((one) => one.says),
    values: Object.fromEntries(
      view.values
        .filter((one) => !/-was\d*/.test(one.name))
        .map((one) => [one.name, one.state === "impossible" ? "impossible" : `${one.state} ${one.text}`]),
    ),
  };
}

/** A book, one or two layers over it, and the same put together by hand. */
function layered(seed: number): {
  readonly by: Chance;
  readonly base: RandomBook;
  readonly texts: readonly string[];
  readonly merged: string;
} {
  const by = chance(seed);
  const base = randomBook(by, 10, seed % 3 === 0);
  const both: Both = { layer: [], merged: single(base.statements) };
  const texts = [base.text];
  let below = "random";
  for (let n = 1; n <= 1 + (seed % 2); n++) {
    both.layer.length = 0;
    const touched = new Set<string>();
    const layering: Layering = { by, asks: base.asks, both, touched, number: n };
    for (let k = 0; k < 8; k++) change(layering, by.whole(both.merged.length));
    const extra = `figure extra-${n} = 2 * ${n}`;
    const step = `step added-${n} "Added {extra-${n}}"`;
    both.layer.push(extra, step);
    both.merged.push(extra, step);
    texts.push(`book layer-${n}, edition 1, amends ${below}, edition 1\n${both.layer.join("\n")}\n`);
    below = `layer-${n}`;
  }
  return { by, base, texts, merged: both.merged.join("\n") };
}

test("a layer over a book is the book that a hand puts together from both", () => {
  let done = 0;
  for (let seed = 1; seed <= 150; seed++) {
    const { by, base, texts, merged } = layered(seed);
    const hand = readBook(merged);
    const book = readBook(texts.at(-1)!, undefined, texts.slice(0, -1));
    const say = `seed ${seed}\n${texts.slice(1).join("\n~~\n")}\n══ by hand\n${merged}`;
    if (errorsIn(hand).length > 0) continue;
    expect(errorsIn(book).join("\n"), say).toBe("");
    done++;
    for (let i = 0; i < 6; i++) {
      const answers = randomAnswers(by, base.asks, i / 5);
      expect(outcome(book, answers), `${say}\n${JSON.stringify(answers)}`).toEqual(outcome(hand, answers));
    }
  }
  expect(done, "most pairs are without errors").toBeGreaterThan(90);
}, 120_000);

test("a layer edited line by line is what it is from nothing", () => {
  for (let seed = 1; seed <= 40; seed++) {
    const { by, base, texts } = layered(seed);
    const books = texts.slice(0, -1);
    let lines = texts.at(-1)!.split("\n");
    let book = readBook(texts.at(-1)!, undefined, books);
    let job = workJob(book, {});
    for (let i = 0; i < 8; i++) {
      const at = by.whole(lines.length);
      lines = by.pick([
        () => lines.filter((_, n) => n !== at),
        () => [...lines.slice(0, at), lines[at]!.replace(/\d/, "4"), ...lines.slice(at + 1)],
        () => [...lines, lines[at]!],
        () => [...lines.slice(0, at), lines[at]!.replace("instead ", ""), ...lines.slice(at + 1)],
        () => texts.at(-1)!.split("\n"),
      ])();
      const text = lines.join("\n");
      const answers = randomAnswers(by, base.asks, 0.6);
      book = readBook(text, book, books);
      job = workJob(book, answers, job);
      const fresh = readBook(text, undefined, books);
      const freshJob = workJob(fresh, answers);
      const seen = ({ findings, rows, worked, asks, kinds, dependencies, under }: Book) => ({
        findings,
        rows,
        worked,
        asks,
        kinds,
        dependencies,
        under,
      });
      expect(seen(book), `seed ${seed}\n${text}`).toEqual(seen(fresh));
      expect(showJob(job), `seed ${seed}\n${text}`).toEqual(showJob(freshJob));
      const row = by.pick(fresh.rows);
      expect(why(job, row.id, "full")).toEqual(why(freshJob, row.id, "full"));
      for (const finding of book.findings)
        expect(finding.at.end, `${finding.code} points into the own text`).toBeLessThanOrEqual(text.length);
    }
  }
}, 120_000);

test("of two texts of one edition the first one given is the base, whichever edition is asked for", () => {
  const base = (depth: string) =>
    `book base, edition 2\n    "Base"\nfigure depth in mm = ${depth}\n    from practice\n`;
  for (const asked of ["", ", edition 2", ", edition 1"]) {
    const book = readBook(`book above, edition 1, amends base${asked}\n    "Above"\n`, undefined, [
      base("3 mm"),
      base("4 mm"),
      base("5 mm").replace("edition 2", "edition 1"),
    ]);
    const shown = showJob(workJob(book, {}));
    expect(shown.values.find((value) => value.name === "depth")?.text, asked).toBe(
      asked === ", edition 1" ? "5 mm" : "3 mm",
    );
  }
});
