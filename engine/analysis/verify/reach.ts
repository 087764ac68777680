// What can be reached: chart rows, alternatives, steps, cautions and stops. What some tried job reaches is
// reached; for the rest a proof either finds a job that does, or shows that none can.
import { readable } from "../../language/layers/item.ts";
import type { Span } from "../../../core/span.ts";
import { Opcode } from "../../program/plan/op.ts";
import type { Plan } from "../../program/plan/plan.ts";
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
  return plan.checked.entries.flatMap((entry): Target[] => {
    const block = plan.byId.get(entry.id);
    if (block === undefined) return [];
    const { text, body } = entry.statement;
    const absolute = (at: Span): Span => placed(entry.piece, at);
    const source = (at: Span) => oneLine(text.slice(at.start, at.end));
    const found: Target[] = [];
    if (
      block.when >= 0 &&
      (body.keyword === "step" || body.keyword === "caution" || body.keyword === "stop")
    ) {
      found.push({
        id: entry.id,
        at: absolute(entry.statement.name?.at ?? { start: 0, end: body.keyword.length }),
        says: `${readable(entry.id)} applies`,
        place: block.when,
        value: 1,
      });
    }
    if (body.keyword === "chart") {
      for (const op of block.ops) {
        if (op.opcode !== Opcode.pick || op.payload.name !== entry.statement.name!.text) continue;
        op.payload.rows.forEach((_, r) => {
          const row = body.rows[op.payload.written[r]!]!;
          found.push({
            id: entry.id,
            at: absolute(row.at),
            says: `row ${op.payload.written[r]! + 1} of ${readable(entry.statement.name!.text)} (${row.cells.map((cell) => source(cell.at)).join(" | ")})`,
            place: op.out,
            value: r,
          });
        });
      }
    }
    if (body.keyword === "figure" && body.rule.is === "choose") {
      // An alternative is taken where its own condition is yes and none before it is.
      const before: number[] = [];
      for (const one of body.rule.cases) {
        const select = block.ops.find(
          (op) =>
            op.opcode === Opcode.select &&
            op.at.start === one.value.at.start &&
            op.at.end === one.value.at.end,
        );
        if (select === undefined) break;
        found.push({
          id: entry.id,
          at: absolute(one.value.at),
          says: `${readable(entry.statement.name!.text)}: ${source(one.value.at)} if ${source(one.when.at)}`,
          place: select.in0,
          value: 1,
          before: [...before],
        });
        before.push(select.in0);
      }
      const last = before.pop();
      if (
        body.rule.otherwise !== undefined &&
        last !== undefined &&
        before.length + 1 === body.rule.cases.length
      )
        found.push({
          id: entry.id,
          at: absolute(body.rule.otherwise.at),
          says: `${readable(entry.statement.name!.text)}: otherwise ${source(body.rule.otherwise.at)}`,
          place: last,
          value: 0,
          before,
        });
    }
    return found;
  });
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
