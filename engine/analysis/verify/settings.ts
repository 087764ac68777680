// Every setting of the dials at once: the plan with each dial that has a span free in it, as an ask is in its
// range. What is promised for all answers is asked of that plan again.
import type { CheckedAsk } from "../../language/check/ask.ts";
import type { Entry } from "../../language/check/book.ts";
import type { Band, Statement } from "../../language/syntax/tree.ts";
import type { Block, Plan } from "../../program/plan/plan.ts";
import type { Slice } from "./slice.ts";

const freed = new WeakMap<Plan, Plan>();

/** The plan with its dials as asks. A dial whose span is its own value stays as it is. */
export function withFreeDials(plan: Plan): Plan {
  const known = freed.get(plan);
  if (known !== undefined) return known;
  const blocks = plan.blocks.map((block) => (isTurnable(block) ? asAsk(block) : block));
  const byId = new Map(plan.byId);
  for (const block of blocks) byId.set(block.id, block);
  const made: Plan = { ...plan, blocks, byId };
  freed.set(plan, made);
  return made;
}

/** Whether there is another setting of a dial than the one it has. */
function isTurnable({ entry, outputs, constants }: Block): boolean {
  if (entry.statement?.body.keyword !== "dial" || outputs.length === 0) return false;
  const { span, signature } = entry.checked;
  return span !== undefined && signature !== undefined && span.low < span.high && constants.length === 1;
}

function asAsk(block: Block): Block {
  const { entry } = block;
  const { statement, checked } = entry;
  const ask: CheckedAsk = { ...checked.span! };
  const asked: Entry = {
    ...entry,
    checked: { ...checked, ask },
    statement: { ...statement, body: { keyword: "ask" } } as unknown as Statement,
  };
  return { ...block, entry: asked, ops: NONE, constants: NONE, answer: block.outputs[0]!, writes: NOTHING };
}

const NOTHING = new Int32Array(0);
const NONE: readonly never[] = [];

/**
 * Whether a chart that the slice reads or calls has rows that end at a dial of more than one setting: those
 * ends are worked out when the book is checked, so such a chart knows the dial only as it is set.
 */
export function hasRowsEndingAtDials({ blocks }: Slice, plan: Plan): boolean {
  const entryOf = (name: string) => plan.checked.entries[plan.checked.byName.get(name) ?? -1];
  const seen = new Set<Entry>();
  const stack = blocks.flatMap(({ entry }) => (entry.statement === undefined ? [] : [entry]));
  for (let entry = stack.pop(); entry !== undefined; entry = stack.pop()) {
    if (seen.has(entry)) continue;
    seen.add(entry);
    if (endsOf(entry.statement).some((name) => plan.byId.get(`dial ${name}`)?.ops.length === 0)) return true;
    // What is called is no block of its own.
    for (const name of entry.statement.needs)
      if (name.endsWith("()")) stack.push(...[entryOf(name.slice(0, -2)) ?? []].flat());
  }
  return false;
}

/** Names at which the rows of a chart end. */
const endsOf = ({ body }: Statement): readonly string[] =>
  body.keyword !== "chart"
    ? []
    : body.rows.flatMap(({ cells }) =>
        cells.flatMap((cell) =>
          "fits" in cell && Array.isArray(cell.fits) ? cell.fits.flatMap(namesIn) : [],
        ),
      );

const namesIn = ({ low, high }: Band): readonly string[] =>
  [low, high].flatMap((end) => (end?.is === "name" ? [end.name] : []));
