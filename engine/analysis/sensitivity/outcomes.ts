// Outcomes of a job: what a card turns on. Lines that apply or do not, and words that are chosen.
import type { LineName } from "../../../core/reason.ts";
import type { Type } from "../../../core/type.ts";
import type { Block, Plan } from "../../program/plan/plan.ts";

export interface Outcome {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  readonly what: "step" | "caution" | "stop" | "value";
  readonly type: Type;
}

/** The line of an outcome that is one, by its name; by its row id where it has none. */
export function lineOf({ what, name, id }: Outcome): LineName {
  if (what === "value") return { name };
  if (name !== id) return { what, name };
  return id.startsWith(`${what} `) ? { what, name: id.slice(what.length + 1) } : { name };
}

const YES_NO: Type = { is: "yes-no" };

/** Lines in book order, then chosen words: figures and charts of a kind. */
export function outcomesOf(plan: Plan): readonly Outcome[] {
  const lines = (blocks: readonly Block[], what: Outcome["what"]) =>
    blocks.flatMap((block) =>
      block.when < 0
        ? []
        : [
            {
              id: block.id,
              name: block.entry.from?.beneath ?? block.entry.statement.name?.text ?? block.id,
              place: block.when,
              what,
              type: YES_NO,
            },
          ],
    );
  const words = plan.checked.entries.flatMap((entry) => {
    const block = plan.byId.get(entry.id);
    const { keyword } = entry.statement.body;
    if (
      block === undefined ||
      (keyword !== "figure" && keyword !== "chart") ||
      entry.statement.name === undefined ||
      entry.from?.hidden !== undefined
    )
      return [];
    const name = entry.statement.name.text;
    const type = entry.checked.signature?.type;
    return block.values.flatMap((value, i): Outcome[] =>
      value.type.is === "kind" && type?.is !== "kept"
        ? [
            {
              id: entry.id,
              name: type?.is === "row" ? `${name}.${type.columns[i]!.name}` : name,
              place: value.register,
              what: "value",
              type: value.type,
            },
          ]
        : [],
    );
  });
  return [
    ...lines(plan.stops, "stop"),
    ...lines(plan.steps, "step"),
    ...lines(plan.cautions, "caution"),
    ...words,
  ];
}

/** Numbers that a line shows. */
export const numbersOf = (block: Block): readonly number[] => [
  ...(block.texts.title?.pieces ?? []).flatMap((piece) =>
    typeof piece === "string" ? [] : [piece.register],
  ),
  ...(block.takes >= 0 ? [block.takes] : []),
  ...(block.waits >= 0 ? [block.waits] : []),
];
