// The figures of proofs: holes of charts, standing of the shipped book, and how both grow.
import { type Book, readBook, verificationOf } from "../../engine/index.ts";
import { chance, type Chance } from "../support/chance.ts";
import { shippedText } from "./big-book.ts";

export interface ProofFigure {
  readonly name: string;
  /** Milliseconds of the processor, the median of the rounds. */
  readonly busy: number;
  /** The aim in milliseconds, where there is one. */
  readonly aim?: number;
  readonly more?: string;
}

/** Runs all of them; about a minute with `rounds` 5. */
export function proofFigures(rounds = 5): readonly ProofFigure[] {
  const figures: ProofFigure[] = [];
  const holes = (conditions: number, rows: number, aim?: number) => {
    // A new text each time, so that no statement is found already read; without the row that is lost, every
    // chart is whole.
    const busy = median(rounds, (i) => {
      const text = chartText(chance(rows * conditions + i), conditions, rows, i % 2 === 1, i);
      return () => {
        const found = readBook(text).findings.some((finding) => finding.code === "chart/hole");
        if (found !== (i % 2 === 1)) throw new Error("the hole was not told rightly");
      };
    });
    figures.push({
      name: `a chart read and proved: ${conditions} conditions, ${rows} rows`,
      busy,
      ...(aim === undefined ? {} : { aim }),
    });
  };
  // Once for the machine to warm to it.
  holes(3, 60);
  figures.pop();
  holes(3, 60, 20);
  holes(8, 2000, 2000);
  for (const conditions of [2, 4, 8, 16]) holes(conditions, 500);
  for (const rows of [125, 250, 1000]) holes(8, rows);

  const shipped = shippedText();
  let goals = 0;
  const whole = median(Math.max(1, Math.ceil(rounds / 2)), (i) => {
    const book = readBook(shipped.replace(/because "/g, `because "${i} `));
    return () => {
      goals = stand(book);
    };
  });
  figures.push({
    name: "standing of the shipped book, from nothing",
    busy: whole,
    more: `${goals} goals, rows, alternatives and lines`,
  });
  const book = readBook(shipped);
  const before = verificationOf(book);
  while (!before.advance(5000));
  const edited = readBook(
    shipped.replace("dial largest-cup in g = 500 g", "dial largest-cup in g = 505 g"),
    book,
  );
  figures.push({
    name: "the same after one dial was turned",
    busy: median(1, () => () => {
      const after = verificationOf(edited, before);
      while (!after.advance(5000));
    }),
  });
  for (const rules of [50, 100, 200]) {
    const text = rulesText(rules);
    figures.push({
      name: `standing of a book of ${rules} rules and ${rules / 10} promises`,
      busy: median(rounds, (i) => {
        const made = readBook(`${text}-- ${i}\n`);
        return () => {
          stand(made);
        };
      }),
    });
  }
  return figures;
}

function stand(book: Book): number {
  const run = verificationOf(book);
  while (!run.advance(5000));
  const view = run.view();
  if (!view.done) throw new Error("not done");
  return view.all;
}

function median(rounds: number, make: (round: number) => () => void): number {
  const times = Array.from({ length: rounds }, (_, i) => {
    const run = make(i);
    const started = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(started);
    return (user + system) / 1000;
  }).sort((a, b) => a - b);
  return times[times.length >> 1]!;
}

/**
 * A chart whose rows fill the whole space and lie apart: one box cut in two again and again; or the same with
 * one row lost.
 */
function chartText(by: Chance, conditions: number, rows: number, lost: boolean, round: number): string {
  const boxes = [Array.from({ length: conditions }, () => [0, 1000] as [number, number])];
  while (boxes.length < rows) {
    const box = by.pick(boxes);
    const c = by.whole(conditions);
    const [low, high] = box[c]!;
    if (high - low < 2) continue;
    const at = low + 1 + by.whole(high - low - 1);
    boxes.push(box.map((side, i) => (i === c ? [at, high] : [...side]) as [number, number]));
    box[c] = [low, at];
  }
  if (lost) boxes.splice(by.whole(rows), 1);
  const names = Array.from({ length: conditions }, (_, i) => `asked-${"abcdefghijklmnop"[i]}`);
  const cell = ([low, high]: readonly [number, number]) =>
    low === 0 && high === 1000 ? "any" : `${low} to ${high === 1000 ? "1000" : `under ${high}`} mm`;
  return (
    `${names.map((name) => `ask ${name} in mm, 0 to 1000 "Round ${round}"`).join("\n")}\nchart ` +
    `chosen by ${names.join(", ")} gives ` +
    `number\n` +
    `    ${[...names, "chosen"].join(" | ")}\n` +
    boxes.map((box, r) => `    ${[...box.map(cell), r].join(" | ")}`).join("\n") +
    "\n    from practice\n"
  );
}

/** Figures that rest on one another and on four answers, a promise to every ten. */
function rulesText(rules: number): string {
  const lines = Array.from({ length: 4 }, (_, i) => `ask long-${i} in mm, 1 to 50\n    measured to 0.5 mm`);
  for (let i = 0; i < rules; i++) {
    const last = i < 4 ? `long-${i}` : `made-${i - 1 - (i % 3)}`;
    lines.push(
      `figure made-${i} in mm ` +
        "= " +
        [
          `largest(${last}, long-${i % 4}) ` + `rounded up to 5 mm`,
          `smallest(${last} + 2 mm, 60 mm)`,
          `${last} * 0.5 + long-${(i + 1) % 4} * 0.5`,
          `${last} if long-${i % 4} < 20 mm, otherwise 30 mm`,
        ][i % 4],
    );
    if (i % 10 === 9) lines.push(`promise made-${i} <= 80 mm and made-${i} > 0 mm`);
  }
  return `${lines.join("\n")}\nstep last "Last {made-${rules - 1}}"\n`;
}
