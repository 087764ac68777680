// Two texts from one base, put together by statement: nothing of either is lost, whatever they changed.
import { expect, test } from "vitest";
import { mergeTexts } from "../../core/merge.ts";
import { chance } from "../support/chance.ts";

const base = `-- a book
book b, edition 1
    "Title"

-- about a
figure a = 1

figure b = 2
    because "two"

caution "First"
caution "Second"

figure c = 3
`;

test("changes in different statements go together, also when those are neighbours", () => {
  const mine = base.replace("figure a = 1", "figure a = 10").replace('"Second"', '"Second, louder"');
  const theirs = base.replace("figure b = 2", "figure b = 20").replace('"First"', '"First, louder"');
  expect(mergeTexts(base, mine, theirs)).toEqual({
    text: base
      .replace("= 1", "= 10")
      .replace("= 2", "= 20")
      .replace('"First"', '"First, louder"')
      .replace('"Second"', '"Second, louder"'),
    clashes: [],
  });
});

test("one adds, one takes out", () => {
  const mine = base.replace("figure c = 3\n", "figure c = 3\n\nfigure d = 4\n");
  const theirs = base.replace(/-- about a\nfigure a = 1\n\n/, "");
  expect(mergeTexts(base, mine, theirs)).toEqual({
    text: mine.replace(/-- about a\nfigure a = 1\n\n/, ""),
    clashes: [],
  });
});

test("both add in one place: both are kept, and it is no clash unless they make the same thing", () => {
  const mine = `${base}figure d = 4\n`;
  expect(mergeTexts(base, mine, `${base}figure e = 5\n`)).toEqual({
    text: `${base}figure e = 5\nfigure d = 4\n`,
    clashes: [],
  });
  expect(mergeTexts(base, mine, `${base}figure d = 5\n`).clashes).toHaveLength(1);
  // A text without an end to its last line runs into nothing.
  expect(mergeTexts("figure a = 1", "figure a = 1\nfigure b = 2", "figure a = 1\nfigure c = 3").text).toBe(
    "figure a = 1\nfigure c = 3\nfigure b = 2",
  );
});

test("both change one statement, or one takes out what the other changed: both are kept and reported", () => {
  const both = mergeTexts(base, base.replace("= 2", "= 21"), base.replace("= 2", "= 22"));
  expect(both.clashes).toEqual([
    {
      base: '\nfigure b = 2\n    because "two"\n',
      mine: '\nfigure b = 21\n    because "two"\n',
      theirs: '\nfigure b = 22\n    because "two"\n',
    },
  ]);
  expect(both.text).toBe(
    base.replace(
      'figure b = 2\n    because "two"\n',
      'figure b = 22\n    because "two"\n\nfigure b = 21\n    because "two"\n',
    ),
  );
  const out = mergeTexts(base, base.replace(/figure b[\s\S]*?two"\n\n/, ""), base.replace("= 2", "= 22"));
  expect(out.text).toContain("figure b = 22");
  expect(out.clashes).toHaveLength(1);
});

test("what one side alone changed is taken as it is; the same change on both sides is one", () => {
  const mine = base.replace("= 1", "= 9");
  expect(mergeTexts(base, mine, base)).toEqual({ text: mine, clashes: [] });
  expect(mergeTexts(base, base, mine)).toEqual({ text: mine, clashes: [] });
  expect(mergeTexts(base, mine, mine)).toEqual({ text: mine, clashes: [] });
});

test("2000 random pairs of edits: no new line is lost, and a line goes only where a side took it out", () => {
  const luck = chance(21);
  let number = 0;
  const statement = (): string => {
    number += 1;
    return luck.pick([
      `figure f${number % 40} = ${number}\n`,
      `caution "c${number}"\n`,
      `-- note ${number}\nfigure g${number} = ${number}\n    because "r${number}"\n`,
      `\nstep s${number} "do ${number}"\n`,
    ]);
  };
  const edited = (pieces: readonly string[]): string[] => {
    const out = [...pieces];
    for (let i = 0, count = luck.whole(5); i < count; i += 1) {
      const at = luck.whole(out.length + 1);
      const kind = luck.whole(3);
      if (kind === 0) out.splice(at, 0, statement());
      else if (kind === 1) out.splice(at, 1);
      else if (at < out.length)
        out[at] = out[at]!.replace(/= \d+|"c\d+"|"do \d+/, (was) => {
          number += 1;
          return `${was.slice(0, 2)}${number}${was.startsWith('"c') ? '"' : ""}`;
        });
    }
    return out;
  };
  const lines = (text: string) => text.split("\n").filter((line) => line.trim() !== "");
  for (let round = 0; round < 2000; round += 1) {
    const from = Array.from({ length: 1 + luck.whole(12) }, statement);
    const [b, m, t] = [from.join(""), edited(from).join(""), edited(from).join("")];
    const { text } = mergeTexts(b, m, t);
    const out = new Set(lines(text));
    const [inBase, inMine, inTheirs] = [new Set(lines(b)), new Set(lines(m)), new Set(lines(t))];
    for (const line of [...inMine, ...inTheirs])
      if (!inBase.has(line)) expect(out.has(line), `round ${round}: ${line} is lost`).toBe(true);
    for (const line of inBase)
      if (inMine.has(line) && inTheirs.has(line))
        expect(out.has(line), `round ${round}: ${line} of all three is lost`).toBe(true);
  }
});

test("a text of many short lines is merged within its bounds", () => {
  const many = Array.from({ length: 50_000 }, (_, i) => `f${i % 7}`).join("\n");
  const { text } = mergeTexts(
    many,
    `x\n${many}\ny\nx`.replace(/f3/g, "f33"),
    `z\n${many}\nw`.replace(/f5/g, "f55"),
  );
  for (const word of ["x", "y", "z", "w", "f33", "f55"]) expect(text.split("\n")).toContain(word);
});

test("the work grows with the length and not with its square: statements of other names", () => {
  // Processor time of two lengths against each other, so that a slow machine is no failure.
  const text = (count: number, name: string): string =>
    Array.from({ length: count }, (_, i) => `figure ${name}${i} = ${i}\n`).join("");
  const spent = (count: number): number => {
    const before = process.cpuUsage();
    const { text: out } = mergeTexts(text(count, "a"), text(count, "b"), text(count, "c"));
    expect(out.length).toBe(2 * text(count, "b").length);
    return process.cpuUsage(before).user;
  };
  spent(2500);
  const [short, long] = [spent(2500), spent(20_000)];
  // Eight times as long: 8 times the work, not 64.
  expect(long / short).toBeLessThan(32);
});
