// A step that a layer replaces under a condition: where that condition does not imply the one underneath, the
// step would be done where the book underneath does not want it.
import type { Span } from "../../../core/span.ts";
import { plain } from "../layers/item.ts";
import { placed } from "../syntax/split.ts";
import type { Expr } from "../syntax/tree.ts";
import type { Entry } from "./book.ts";
import { type Names, conjuncts, implies } from "./implies.ts";
import type { Rule } from "./rule.ts";
import type { Mend } from "./scope.ts";

export interface LostCondition {
  readonly at: Span;
  readonly facts: Readonly<Record<string, unknown>>;
}

/**
 * The finding of a step whose condition does not keep that of the step underneath. A condition that names
 * `as-before` has said what becomes of it. Stops and cautions need no such look: the one underneath still
 * holds wherever the one above it does not.
 */
export function lostCondition(
  entry: Entry,
  entries: readonly Entry[],
  entryOf: (name: string) => Entry | undefined,
  names: Names,
): LostCondition | undefined {
  const { statement, checked, from } = entry;
  const { when } = statement.clauses;
  const own = checked.when;
  if (statement.body.keyword !== "step" || from?.own !== true || from.was === undefined) return undefined;
  if (when === undefined || own === undefined) return undefined;
  const name = statement.name!.text;
  const beneath = entries.filter(
    (one) => one.from?.beneath === name && one.statement.body.keyword === "step",
  );
  const conditions = beneath.map((one) => conditionOf(one));
  if (conditions.length === 0 || conditions.some((parts) => parts.length === 0)) return undefined;
  if (namesBeneath(own)) return undefined;
  if (conditions.some((parts) => parts.every((part) => implies(names, own, part)))) return undefined;
  const under = beneath.at(-1)!;
  const written = writtenCondition(under, conditions.at(-1)!, entryOf);
  const layer = written.entry.from?.layer;
  return {
    at: when.at,
    facts: {
      name,
      layer,
      condition: plain(written.entry.statement.text.slice(written.at.start, written.at.end)),
      also: [
        { absolute: placed(written.entry.piece, written.at), says: `the condition in ${String(layer)}` },
      ],
      mends: [keepCondition(when)],
    },
  };
}

/** The parts of a lower step's own condition, without the steps above that it gives way to. */
const conditionOf = ({ checked }: Entry): readonly Rule[] =>
  (checked.when === undefined ? [] : conjuncts(checked.when)).filter(
    (part) => !(part.does === "not" && part.of.does === "value" && part.of.name.includes(" ")),
  );

/** Whether the condition looks at that of the step underneath: `as-before` is kept as a value of its own. */
function namesBeneath(rule: unknown): boolean {
  if (typeof rule !== "object" || rule === null) return false;
  if ("does" in rule && rule.does === "value" && "name" in rule && String(rule.name).startsWith("step:"))
    return true;
  return Object.values(rule).some(namesBeneath);
}

/** Where the condition is written: a step that says nothing of when has it from the one below. */
function writtenCondition(
  under: Entry,
  [first]: readonly Rule[],
  entryOf: (name: string) => Entry | undefined,
): { readonly entry: Entry; readonly at: Span } {
  const kept = first?.does === "value" && first.name.startsWith("step:") ? entryOf(first.name) : undefined;
  return kept?.statement.ruleAt === undefined
    ? { entry: under, at: under.statement.clauses.when!.at }
    : { entry: kept, at: kept.statement.ruleAt };
}

function keepCondition(when: Expr): Mend {
  const { at } = when;
  const simple = when.is === "name" || when.is === "known" || (when.is === "binary" && when.op !== "or");
  const begin = { start: at.start, end: at.start };
  const end = { start: at.end, end: at.end };
  return {
    says: "Keep the condition underneath",
    edits: simple
      ? [{ at: end, text: " and as-before" }]
      : [
          { at: begin, text: "(" },
          { at: end, text: ") and as-before" },
        ],
  };
}
