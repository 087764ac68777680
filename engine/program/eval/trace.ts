// Why a value came out as it did, as a trace: a flat list of numbered steps, one for each statement that was
// used. A step names the steps that it rests on by number. Nothing is nested, so a trace cannot explode.
import type { TraceStep, TraceView, UnitSystem } from "../../../core/view.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { listName } from "../plan/registers.ts";
import { decidingInputs } from "./deciding-inputs.ts";
import type { Evaluation } from "./evaluate.ts";
import type { Frame } from "./frame.ts";
import { traceStep } from "./trace-step.ts";

const MOST_STEPS = 2000;

/** Why the statement `id` came out as it did; `column` for a chart of several values. */
export function traceOf(
  evaluation: Evaluation,
  id: string,
  column: number | undefined,
  depth: "deciding" | "full",
  units: UnitSystem,
): TraceView | undefined {
  const { plan } = evaluation;
  const first = plan.byId.get(id);
  if (first === undefined) return undefined;
  const numbers = new Map<string, number>();
  const queue: { block: Block; column: number | undefined }[] = [];
  const numberOf = (block: Block, of: number | undefined): number => {
    const key = `${block.id}.${of ?? ""}`;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    const number = queue.length;
    numbers.set(key, number);
    queue.push({ block, column: of });
    return number;
  };
  numberOf(first, column);
  const steps: TraceStep[] = [];
  for (let i = 0; i < queue.length && i < MOST_STEPS; i++) {
    const { block, column: of } = queue[i]!;
    const rests = nodesUnder(evaluation, block, of, depth === "deciding").filter(
      (node) => numbers.has(`${node.block.id}.${node.column ?? ""}`) || queue.length < MOST_STEPS,
    );
    steps.push(
      traceStep(
        evaluation,
        block,
        of,
        rests.map((node) => numberOf(node.block, node.column)),
        units,
      ),
    );
  }
  return { of: first.entry.statement.name?.text ?? id, depth, steps };
}

/** The number of steps a full account of these blocks takes: what a bench compares with values alone. */
export function decidingNames(plan: Plan, frame: Frame, block: Block): readonly string[] {
  return registersOf(plan, block, undefined).flatMap((register) =>
    decidingInputs(plan, frame, block, register, true),
  );
}

interface Node {
  readonly block: Block;
  readonly column: number | undefined;
}

function nodesUnder(
  { plan, frame }: Evaluation,
  block: Block,
  column: number | undefined,
  deciding: boolean,
): Node[] {
  const names = registersOf(plan, block, column).flatMap((register) =>
    decidingInputs(plan, frame, block, register, deciding),
  );
  const nodes: Node[] = [];
  for (const name of new Set(names)) {
    const node = nodeOf(plan, name);
    if (
      node !== undefined &&
      node.block.id !== block.id &&
      !nodes.some((one) => one.block === node.block && one.column === node.column)
    )
      nodes.push(node);
    if (name.startsWith("steps!"))
      for (const step of plan.steps)
        if (frame.num[step.when] !== 0 || !deciding) nodes.push({ block: step, column: undefined });
    if (name === "stopped!")
      for (const stop of plan.stops)
        if (frame.num[stop.when] === 1 || !deciding) nodes.push({ block: stop, column: undefined });
  }
  for (const called of calledCharts(plan, block))
    if (!nodes.some((node) => node.block === called)) nodes.push({ block: called, column: undefined });
  return nodes;
}

/**
 * Charts with conditions of their own have no register, but their reason and basis belong to their callers.
 */
function calledCharts(plan: Plan, block: Block): readonly Block[] {
  return (block.entry.statement?.needs ?? []).flatMap((name) => {
    const at = name.endsWith("()") ? plan.checked.byName.get(name.slice(0, -2)) : undefined;
    const entry = at === undefined ? undefined : plan.checked.entries[at]!;
    return entry?.checked.signature?.calledOnly === true ? [plan.byId.get(entry.id)!] : [];
  });
}

/**
 * From the name of a register to its statement: `care.1` is a chart's second value, `plies!` a list, `skin?`
 * an answer.
 */
function nodeOf(plan: Plan, name: string): Node | undefined {
  const [, base, column] = /^(.*?)(?:\.(\d+))?[!?]*$/.exec(name) ?? [];
  const at = plan.checked.byName.get(base ?? "");
  const entry = at === undefined ? undefined : plan.checked.entries[at];
  const block = entry === undefined ? plan.byId.get(name) : plan.byId.get(entry.id);
  return block && { block, column: column === undefined ? undefined : Number(column) };
}

function registersOf(plan: Plan, block: Block, column: number | undefined): readonly number[] {
  const list =
    block.entry.statement.body?.keyword === "list"
      ? plan.registers.byName.get(listName(block.entry.statement.name!.text))
      : undefined;
  if (list !== undefined) return [list];
  if (column !== undefined) return [block.outputs[column]!];
  // How long a step takes is on its line; this is about why it applies.
  if (block.entry.statement.body.keyword === "step" && block.when >= 0) return [block.when];
  return [...block.outputs];
}
