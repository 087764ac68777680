// What the compiler makes of small books: operations, registers that stay after an edit, groups of rows.
import { expect, test } from "vitest";
import { checkBook } from "../../../../engine/language/check/book.ts";
import { compileBook } from "../../../../engine/program/plan/compile.ts";
import { Opcode, type Op } from "../../../../engine/program/plan/op.ts";
import type { Plan } from "../../../../engine/program/plan/plan.ts";

const HEAD = 'book small, edition 1\n    "Small"\n';
const compiled = (text: string, before?: Plan): Plan =>
  compileBook(checkBook(HEAD + text, before?.checked), before);
const NAMES = new Map<number, string>(Object.entries(Opcode).map(([name, code]) => [code, name]));
const blockOf = (plan: Plan, name: string) =>
  plan.blocks.find((block) => block.entry.statement?.name?.text === name)!;
const opcodes = (plan: Plan, name: string) => blockOf(plan, name).ops.map(({ opcode }) => NAMES.get(opcode));
const opOf = <N extends keyof typeof Opcode>(plan: Plan, of: string, name: N) =>
  blockOf(plan, of).ops.find(({ opcode }) => opcode === Opcode[name]) as Extract<
    Op,
    { opcode: (typeof Opcode)[N] }
  >;

const WIDTH = 'ask width in mm, 1 to 100\n    "Width"\n';

test("an expression becomes operations in the order in which its operands are needed", () => {
  const plan = compiled(`${WIDTH}figure twice in mm = (width + 1 mm) * 2\n`);
  expect(opcodes(plan, "twice")).toEqual(["add", "mul", "copy"]);
  const [add, mul, copy] = blockOf(plan, "twice").ops;
  expect(add!.in0).toBe(plan.registers.byName.get("width"));
  expect(mul!.in0).toBe(add!.out);
  expect([copy!.in0, copy!.out]).toEqual([mul!.out, plan.registers.byName.get("twice")]);
});

test("a constant is held once in each statement", () => {
  const plan = compiled(`${WIDTH}figure sum in mm = width + 3 mm + 3 mm\n`);
  expect(blockOf(plan, "sum").constants.map(({ value }) => value)).toEqual([0.003]);
});

test("an edit of one figure leaves the blocks of the others as they are", () => {
  const text = (factor: number) =>
    `${WIDTH}figure twice in mm = width * ${factor}\nfigure half in mm = width / 2\n`;
  const before = compiled(text(2));
  const after = compiled(text(3), before);
  expect(blockOf(after, "half").ops).toBe(blockOf(before, "half").ops);
  expect(blockOf(after, "twice").ops).not.toBe(blockOf(before, "twice").ops);
  expect(blockOf(after, "twice").outputs).toEqual(blockOf(before, "twice").outputs);
});

test("a fallback for `cannot tell` selects between the answer and the fallback", () => {
  const plan = compiled('ask width in mm, 1 to 100\n    "Width"\n    if unknown take 5 mm\n');
  const select = opOf(plan, "width", "select");
  expect(select.in0).toBe(plan.registers.byName.get("width??"));
  expect(select.in2).toBe(plan.registers.byName.get("width?"));
  expect(blockOf(plan, "width").cannotTell).toBe(select.in0);
});

test("a second figure of one name does not write the first one's register", () => {
  const plan = compiled(`${WIDTH}figure a in mm = width\nfigure a in mm = width * 2\n`);
  const first = plan.registers.byName.get("a");
  const writers = plan.blocks.filter((block) => block.writes.includes(first!));
  expect(writers).toHaveLength(1);
});

test("figures in a loop have no value, and say so", () => {
  const plan = compiled("figure a in mm = b + 1 mm\nfigure b in mm = a + 1 mm\n");
  expect(blockOf(plan, "a").nothing.map(({ reason }) => reason.code)).toEqual(["loop"]);
});

test("a chart's cells become ends of a band; a row over any answer has none", () => {
  const plan = compiled(
    `${WIDTH}chart hours by width gives h\n    first row wins\n    width | value\n` +
      "    under 10 mm | 1 h\n    any | 2 h\n",
  );
  const { payload } = opOf(plan, "hours", "pick");
  expect([...payload.lows]).toEqual([-Infinity, -Infinity]);
  expect(payload.highs[0]).toBeLessThan(0.01);
  expect(payload.highs[0]).toBeGreaterThan(0.01 * (1 - 2e-9));
  expect(payload.highs[1]).toBe(Infinity);
  expect(payload.firstWins).toBe(true);
});

test("what a row of a list reads from outside runs once, before the list", () => {
  const plan = compiled(
    `${WIDTH}list plies for n from 1 to 3\n    size in mm = width * 2 + n * 1 mm\n` +
      "figure all in mm = sum of plies.size\n",
  );
  expect(opcodes(plan, "plies")).toEqual(["mul", "list"]);
  const inner = opOf(plan, "plies", "list").payload.ops.map(({ opcode }) => NAMES.get(opcode));
  expect(inner).toEqual(["mul", "add"]);
});
