// What can be reached: chart rows, alternatives, steps, cautions and stops. What some tried job reaches is
// reached; for the rest a proof either finds a job that does, or shows that none can.
import { readable } from "../../language/layers/item.ts";
import type { Span } from "../../../core/span.ts";
import { Opcode } from "../../program/plan/op.ts";
import type { Block, Plan } from "../../program/plan/plan.ts";
import type { Entry } from "../../language/check/book.ts";
import type { Statement } from "../../language/syntax/tree.ts";
import type { Frame } from "../../program/eval/frame.ts";
import { oneLine } from "../../program/eval/show.ts";
import { placed } from "../../language/syntax/split.ts";
import type { Goal } from "./goal.ts";

export interface Target {
  readonly id: string;
  /** Counted from the start of the book. */
  readonly at: Span;
  readonly says: string;
  readonly place: number;
  readonly value: number;
  /** Conditions that must come out no beside it. */
  readonly before?: readonly number[];
}

/** Every row, alternative and line of a book that a job can reach or not. */
export function targetsOf(plan: Plan): readonly Target[] {
  return plan.checked.entries.flatMap((entry): readonly Target[] => {
    const block = plan.byId.get(entry.id);
    if (block === undefined) return [];
    switch (entry.statement.body.keyword) {
      case "step":
      case "caution":
      case "stop":
        return lineTargets(entry, block);
      case "chart":
        return rowTargets(entry, block, entry.statement.body);
      case "figure":
        return alternativeTargets(entry, block, entry.statement.body);
      case "book":
      case "part":
      case "use":
      case "drop":
      case "add":
      case "kind":
      case "ask":
      case "dial":
      case "formula":
      case "list":
      case "promise":
      case "picture":
      case "worked":
      case "unreadable":
        return [];
    }
  });
}

const sourceOf = ({ statement }: Entry, at: Span): string => oneLine(statement.text.slice(at.start, at.end));

function lineTargets(entry: Entry, block: Block): readonly Target[] {
  if (block.when < 0) return [];
  const { name, body } = entry.statement;
  const at = placed(entry.piece, name?.at ?? { start: 0, end: body.keyword.length });
  return [{ id: entry.id, at, says: `${readable(entry.id)} applies`, place: block.when, value: 1 }];
}

type BodyOf<Keyword extends string> = Extract<Statement["body"], { keyword: Keyword }>;

function rowTargets(entry: Entry, block: Block, body: BodyOf<"chart">): readonly Target[] {
  const name = entry.statement.name!.text;
  return block.ops.flatMap((op) => {
    if (op.opcode !== Opcode.pick || op.payload.name !== name) return [];
    return op.payload.rows.map((_, r): Target => {
      const row = body.rows[op.payload.written[r]!]!;
      const cells = row.cells.map((cell) => sourceOf(entry, cell.at)).join(" | ");
      return {
        id: entry.id,
        at: placed(entry.piece, row.at),
        says: `row ${op.payload.written[r]! + 1} of ${readable(name)} (${cells})`,
        place: op.out,
        value: r,
      };
    });
  });
}

/** An alternative is taken where its own condition is yes and none before it is. */
function alternativeTargets(entry: Entry, block: Block, body: BodyOf<"figure">): readonly Target[] {
  const { rule } = body;
  if (rule.is !== "choose") return [];
  const name = readable(entry.statement.name!.text);
  const found: Target[] = [];
  const before: number[] = [];
  for (const one of rule.cases) {
    const select = block.ops.find(
      (op) =>
        op.opcode === Opcode.select && op.at.start === one.value.at.start && op.at.end === one.value.at.end,
    );
    if (select === undefined) break;
    found.push({
      id: entry.id,
      at: placed(entry.piece, one.value.at),
      says: `${name}: ${sourceOf(entry, one.value.at)} if ${sourceOf(entry, one.when.at)}`,
      place: select.in0,
      value: 1,
      before: [...before],
    });
    before.push(select.in0);
  }
  const last = before.pop();
  if (rule.otherwise !== undefined && last !== undefined && before.length + 1 === rule.cases.length)
    found.push({
      id: entry.id,
      at: placed(entry.piece, rule.otherwise.at),
      says: `${name}: otherwise ${sourceOf(entry, rule.otherwise.at)}`,
      place: last,
      value: 0,
      before,
    });
  return found;
}

export const reaches = (target: Target, frame: Frame): boolean =>
  frame.num[target.place] === target.value &&
  (target.before ?? []).every((register) => frame.num[register] === 0);

/** The goal that a target is never reached: broken by a job that reaches it. */
export const neverGoal = (target: Target): Goal => ({
  id: target.id,
  sort: "condition",
  says: target.says,
  guards: [],
  unless: -1,
  want: { is: "never", places: [target.place, ...(target.before ?? [])], value: target.value },
});
