// The trace reading: why a value came out as it did. A trace is a flat list of numbered steps, one for each
// statement that was used; a step says which others it rests on by their numbers. Nothing is nested, so
// nothing can explode.
import type { Span } from "../../../core/span.ts";
import type { TraceStep, TraceView, UnitSystem } from "../../../core/view.ts";
import { TIME } from "../../../core/dimension.ts";
import { quantity } from "../../../core/type.ts";
import { simpleUnit } from "../../../core/unit.ts";
import { eachExpr } from "../../language/syntax/names.ts";
import { placed } from "../../language/syntax/split.ts";
import type { Expr } from "../../language/syntax/tree.ts";
import { Opcode } from "../plan/op.ts";
import { listName } from "../plan/registers.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { decidingInputs } from "./deciding-inputs.ts";
import { pointsUsed } from "./interpolate.ts";
import { type Frame, isKnown, stateOf } from "./frame.ts";
import { producers } from "./producers.ts";
import { basisText, cardLine, oneLine, shown, shownOf, textOf, writeAny } from "./show.ts";
import type { Evaluation } from "./evaluate.ts";

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
      stepOf(
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
  return placesOf(plan, block, undefined).flatMap((register) =>
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
  const names = placesOf(plan, block, column).flatMap((register) =>
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
 * Charts with conditions of their own have no place to rest on, but their reason and basis belong to what
 * calls them.
 */
function calledCharts(plan: Plan, block: Block): readonly Block[] {
  return (block.entry.statement?.needs ?? []).flatMap((name) => {
    const at = name.endsWith("()") ? plan.checked.byName.get(name.slice(0, -2)) : undefined;
    const entry = at === undefined ? undefined : plan.checked.entries[at]!;
    return entry?.checked.signature?.calledOnly === true ? [plan.byId.get(entry.id)!] : [];
  });
}

/**
 * From the name of a place to its statement: `care.1` is a chart's second value, `plies!` a list, `skin?` an
 * answer.
 */
function nodeOf(plan: Plan, name: string): Node | undefined {
  const [, base, column] = /^(.*?)(?:\.(\d+))?[!?]*$/.exec(name) ?? [];
  const at = plan.checked.byName.get(base ?? "");
  const entry = at === undefined ? undefined : plan.checked.entries[at];
  const block = entry === undefined ? plan.byId.get(name) : plan.byId.get(entry.id);
  return block && { block, column: column === undefined ? undefined : Number(column) };
}

function placesOf(plan: Plan, block: Block, column: number | undefined): readonly number[] {
  const list =
    block.entry.statement.body?.keyword === "list"
      ? plan.registers.byName.get(listName(block.entry.statement.name!.text))
      : undefined;
  if (list !== undefined) return [list];
  if (column !== undefined) return [block.outputs[column]!];
  // How long a step takes is told on its line; why it applies is asked here.
  if (block.entry.statement.body.keyword === "step" && block.when >= 0) return [block.when];
  return [...block.outputs];
}

// ───────────── one step ─────────────

function stepOf(
  evaluation: Evaluation,
  block: Block,
  column: number | undefined,
  rests: readonly number[],
  units: UnitSystem,
): TraceStep {
  const { statement, checked, piece } = block.entry;
  const absolute = (at: Span): Span => placed(piece, at);
  const whole = absolute(statement.name?.at ?? { start: 0, end: statement.text.split("\n")[0]!.length });
  const because = textOf(evaluation, block.texts.because, units);
  const basis = basisText(block);
  const source = (at: Span) => oneLine(statement.text.slice(at.start, at.end));
  const common = {
    name: block.entry.from?.hidden ?? block.entry.from?.beneath ?? statement.name?.text ?? block.id,
    id: visibleId(evaluation.plan, block),
    layer: layerFor(evaluation.plan, block, undefined),
    rests,
    ...(because !== undefined ? { because } : {}),
    ...(basis !== undefined ? { basis } : {}),
    rule: statement.ruleAt ? source(statement.ruleAt) : "",
  };
  const value =
    column !== undefined
      ? shown(evaluation, block.values[column]!, common.name, units)
      : shownOf(evaluation, block, units)[0];
  const told = { state: value?.state ?? "known", value: value?.text ?? "" } as const;
  const { body } = statement;
  switch (body.keyword) {
    case "ask":
      return { ...common, ...told, ...answerStep(evaluation, block, units), at: whole };
    case "dial":
      return {
        ...common,
        ...told,
        does: "dial",
        at: absolute(body.rule.at),
        filled: source(body.rule.at),
        decided: "",
      };
    case "figure": {
      const decided = body.rule.is === "choose" ? branch(evaluation, block, body.rule) : undefined;
      const shownRule = decided?.value ?? body.rule;
      const elsewhere = statement.instead !== undefined && decided?.value.at === statement.instead;
      const says = [
        ...(elsewhere
          ? [`elsewhere as in ${block.entry.from?.was?.layer ?? "the book below"}`]
          : decided
            ? [decided.says]
            : []),
        ...calledRows(evaluation, block, shownRule),
      ].join("; ");
      // Elsewhere the reason and basis of a layer's rule are not those of the value: the rule underneath
      // gives its own.
      const { because: _because, basis: _basis, ...bare } = common;
      return {
        ...(elsewhere ? bare : common),
        ...told,
        does: "figure",
        at: absolute(decided?.at ?? body.rule.at),
        filled: filled(evaluation, block, shownRule, units),
        decided: says,
      };
    }
    case "chart": {
      if (checked.signature?.calledOnly === true)
        return {
          ...common,
          does: "chart",
          state: "known",
          value: "read by what stands in brackets",
          at: whole,
          filled: "",
          decided: "",
        };
      const chart = decidedRow(evaluation, block, column);
      return {
        ...rowReason(evaluation.plan, block, chart.at && absolute(chart.at), common),
        ...told,
        does: "chart",
        at: chart.at ? absolute(chart.at) : whole,
        filled: body.conditions
          .map((condition) => {
            const value = valueText(evaluation, condition.text, undefined, units) ?? "";
            return value.startsWith(`${condition.text} (`) ? value : `${condition.text} ${value}`;
          })
          .join(", "),
        decided: chart.says,
      };
    }
    case "list": {
      const rule = statement.ruleAt ? source(statement.ruleAt) : "";
      return {
        ...common,
        ...told,
        does: "list",
        at: whole,
        rule,
        filled: `${body.counter.text} from ${filled(evaluation, block, body.from, units)} to ${filled(evaluation, block, body.to, units)}`,
        decided: "",
      };
    }
    case "step":
    case "caution":
    case "stop": {
      const when = statement.clauses.when;
      const state = stateOf(evaluation.frame, block.when);
      const holds =
        state === "known"
          ? evaluation.frame.num[block.when] === 1
            ? "yes"
            : "no"
          : state === "unknown"
            ? "waits"
            : "has no answer";
      return {
        ...common,
        does: body.keyword,
        state,
        value: `${holds}: ${cardLine(evaluation, block, units).text}`,
        at: when ? absolute(when.at) : whole,
        rule: when ? `when ${source(when.at)}` : "always",
        filled: when ? filled(evaluation, block, when, units) : "",
        decided: "",
      };
    }
    case "promise": {
      const state = stateOf(evaluation.frame, block.when);
      return {
        ...common,
        does: "promise",
        state,
        value: state === "known" ? (evaluation.frame.num[block.when] === 1 ? "kept" : "broken") : "not known",
        at: absolute(body.rule.at),
        filled: filled(evaluation, block, body.rule, units),
        decided: "",
      };
    }
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "kind":
    case "formula":
    case "picture":
    case "worked":
    case "unreadable":
      return {
        ...common,
        does: "figure",
        state: "impossible",
        value: "it cannot be read",
        at: whole,
        filled: "",
        decided: "",
      };
  }
}

/**
 * Of a chart with rows of several books: the layer of the row that decided, and the reason that this layer
 * gives.
 */
function rowReason<Common extends { readonly because?: string; readonly basis?: string }>(
  plan: Plan,
  block: Block,
  at: Span | undefined,
  common: Common,
): Omit<Common, "because" | "basis"> & Pick<TraceStep, "layer" | "because" | "basis"> {
  const layer = layerFor(plan, block, at);
  const added = block.entry.from?.added?.findLast((one) => one.layer === layer);
  if (added === undefined) return { ...common, layer };
  const { because: _because, basis: _basis, ...bare } = common;
  return { ...bare, ...added };
}

/** The row that stands for a statement: of a rule kept underneath, the row of what replaces it. */
function visibleId({ checked }: Plan, { entry, id }: Block): string {
  const hidden = entry.from?.hidden;
  if (hidden === undefined) return id;
  const above = ["", "step ", "caution ", "stop "]
    .map((word) => checked.byName.get(word + hidden))
    .find((at) => at !== undefined);
  return above === undefined ? id : checked.entries[above]!.id;
}

/** Name of the book that a statement stands in, or, of a chart with rows of several, its row at `at`. */
function layerFor(plan: Plan, { entry }: Block, at: Span | undefined): string {
  if (entry.from === undefined) return ownName(plan);
  const { composition, text } = plan.checked;
  if (at === undefined || entry.piece.lines === undefined || composition === undefined)
    return entry.from.layer;
  return at.start < text.length
    ? ownName(plan)
    : (composition.under.findLast((one) => one.start <= at.start)?.name ?? entry.from.layer);
}

const ownName = (plan: Plan): string =>
  plan.checked.entries.find((entry) => entry.statement.body.keyword === "book" && entry.from?.own !== false)
    ?.statement.name?.text ?? "";

function answerStep(
  evaluation: Evaluation,
  block: Block,
  units: UnitSystem,
): Pick<TraceStep, "does" | "filled" | "decided" | "because"> {
  const name = block.entry.statement.name!.text;
  const given = evaluation.given.get(name);
  const typed = evaluation.answers[name] ?? "";
  if (given?.is === "value") return { does: "answer", filled: typed, decided: `answered ${typed}` };
  if (given?.is === "unusable") return { does: "answer", filled: typed, decided: given.says };
  const ifUnknown = block.entry.statement.clauses.ifUnknown;
  if (given?.is === "cannot-tell" && ifUnknown !== undefined) {
    const because = textOf(evaluation, block.texts.takeBecause, units);
    return {
      does: "taken",
      filled: filled(evaluation, block, ifUnknown.take, units),
      decided: "answered: cannot tell; the book takes this instead",
      ...(because !== undefined ? { because } : {}),
    };
  }
  return { does: "unanswered", filled: "", decided: "not answered yet" };
}

/** The alternative that was taken. */
function branch(
  { plan, frame }: Evaluation,
  block: Block,
  rule: Extract<Expr, { is: "choose" }>,
): { at: Span; says: string; value: Expr } | undefined {
  const source = (at: Span) => oneLine(block.entry.statement.text.slice(at.start, at.end));
  const made = producers(plan);
  const selects = block.ops.filter((op) => op.opcode === Opcode.select && made.get(op.out)?.block === block);
  for (const one of rule.cases) {
    const select = selects.find((op) => op.at.start === one.value.at.start && op.at.end === one.value.at.end);
    if (select === undefined) return undefined;
    if (!isKnown(frame, select.in0))
      return { at: one.when.at, says: `not settled: ${source(one.when.at)}`, value: rule };
    if (frame.num[select.in0] === 1)
      return { at: one.value.at, says: `since ${source(one.when.at)}`, value: one.value };
  }
  return (
    rule.otherwise && {
      at: rule.otherwise.at,
      says: "otherwise: none of the others applies",
      value: rule.otherwise,
    }
  );
}

/** Charts that a rule calls, with the row that each call came to. */
function calledRows(evaluation: Evaluation, block: Block, rule: Expr): readonly string[] {
  const { plan, frame } = evaluation;
  const told: string[] = [];
  eachExpr(rule, (expr) => {
    if (expr.is !== "call") return;
    const entry = plan.checked.entries[plan.checked.byName.get(expr.name.text) ?? -1];
    const ops = block.ops.filter(
      (one) =>
        (one.opcode === Opcode.pick || one.opcode === Opcode.interpolate) &&
        one.payload.name === expr.name.text &&
        one.at.start === expr.at.start &&
        one.at.end === expr.at.end,
    );
    const op = ops.find((one) => one.opcode === Opcode.interpolate) ?? ops[0];
    if (
      entry?.statement.body.keyword !== "chart" ||
      (op?.opcode !== Opcode.pick && op?.opcode !== Opcode.interpolate)
    )
      return;
    const { body, text } = entry.statement;
    const cells = (row: number) =>
      `row ${row + 1} of ${expr.name.text}: ${body.rows[row]!.cells.map((cell) => oneLine(text.slice(cell.at.start, cell.at.end))).join(" | ")}`;
    if (op.opcode === Opcode.pick && isKnown(frame, op.out))
      told.push(cells(op.payload.written[frame.num[op.out]!]!));
    if (op.opcode === Opcode.interpolate && isKnown(frame, op.out))
      told.push(
        pointsUsed(frame, op.payload, op.in0)
          .filter((row) => row >= 0)
          .map(cells)
          .join(" and "),
      );
  });
  return told;
}

/** The row that decided, or the points gone between. */
function decidedRow(
  { plan, frame }: Evaluation,
  block: Block,
  column: number | undefined,
): { at?: Span; says: string } {
  const { chart } = block.entry.checked;
  const { body, text } = block.entry.statement;
  if (chart === undefined || body.keyword !== "chart") return { says: "" };
  const cells = (row: number) =>
    body.rows[row]!.cells.map((cell) => oneLine(text.slice(cell.at.start, cell.at.end))).join(" | ");
  const output = block.outputs[column ?? 0]!;
  const op = producers(plan).get(output)?.op;
  if (op?.opcode === Opcode.rowValue) {
    const pick = producers(plan).get(op.in0)?.op;
    if (pick?.opcode !== Opcode.pick) return { says: "" };
    if (isKnown(frame, op.in0)) {
      const row = pick.payload.written[frame.num[op.in0]!]!;
      return { at: body.rows[row]!.at, says: `row ${row + 1}: ${cells(row)}` };
    }
    const maybe = frame.possibleRows.get(op.in0)?.rows ?? [];
    if (isKnown(frame, output))
      return {
        says: `rows ${maybe.map((r) => pick.payload.written[r]! + 1).join(", ")} are all still possible and agree`,
      };
    return {
      says:
        maybe.length > 0 && frame.state[op.in0] === 1
          ? `still possible: rows ${maybe
              .slice(0, 12)
              .map((r) => pick.payload.written[r]! + 1)
              .join(", ")}`
          : "no row fits",
    };
  }
  if (op?.opcode === Opcode.interpolate) {
    const used = isKnown(frame, output) ? pointsUsed(frame, op.payload, op.in0) : [];
    const first = used[0];
    if (first === undefined) return { says: "" };
    const rows = used.filter((row) => row >= 0);
    return {
      at: { start: body.rows[rows[0]!]!.at.start, end: body.rows[rows.at(-1)!]!.at.end },
      says:
        rows.length === 1
          ? `at row ${first + 1}: ${cells(first)}`
          : `between rows ${rows.map((row) => `${row + 1} (${cells(row)})`).join(" and ")}`,
    };
  }
  if (op?.opcode === Opcode.candidateRows) {
    const kept = frame.candidateRows[op.payload.slot];
    const left = kept
      ? [...kept.left].flatMap((yes, r) => (yes ? [op.payload.pick.written[r]! + 1] : []))
      : [];
    if (left.length > 0) return { says: `rows left: ${left.join(", ")}` };
    const answered = chart.conditions
      .filter((_, c) => isKnown(frame, op.payload.pick.conditions[c]!))
      .map((condition) => condition.name);
    return { says: `the answers to ${answered.join(", ")} leave no row` };
  }
  return { says: "" };
}

// ───────────── numbers filled in ─────────────

/** The rule as written, each name replaced by its value. */
function filled(evaluation: Evaluation, block: Block, rule: Expr, units: UnitSystem): string {
  const { text } = block.entry.statement;
  const swaps: { at: Span; text: string }[] = [];
  const made = producers(evaluation.plan);
  eachExpr(rule, (expr) => {
    if (expr.is === "name") {
      const value = valueText(evaluation, expr.name, expr.field?.text, units);
      if (value !== undefined) swaps.push({ at: expr.at, text: value });
    } else if (
      expr.is === "gather" &&
      expr.from.text === "steps" &&
      !evaluation.plan.checked.byName.has("steps")
    ) {
      const place = evaluation.plan.registers.byName.get(`steps!${expr.field?.text ?? "count"}`);
      if (place !== undefined && isKnown(evaluation.frame, place))
        swaps.push({
          at: expr.at,
          text: writeAny(
            evaluation.plan.registers.templates,
            evaluation.frame,
            evaluation.frame.num[place]!,
            expr.field ? quantity(TIME) : { is: "count" },
            simpleUnit("min"),
            units,
          ),
        });
    } else if (expr.is === "gather") {
      const op = block.ops.find(
        (one) =>
          (one.opcode === Opcode.aggregate ||
            one.opcode === Opcode.candidateCount ||
            one.opcode === Opcode.firstCandidate) &&
          one.at.start === expr.at.start,
      );
      const list =
        evaluation.plan.checked.entries[evaluation.plan.checked.byName.get(expr.from.text) ?? -1]?.checked
          .signature?.type;
      if (op === undefined || !isKnown(evaluation.frame, op.out) || list === undefined) return;
      const column =
        list.is === "list" ? list.columns.find((one) => one.name === expr.field?.text) : undefined;
      const type =
        list.is === "kept" && op.opcode === Opcode.firstCandidate
          ? list.of
          : (column?.type ?? { is: "count" as const });
      swaps.push({
        at: expr.at,
        text: writeAny(
          evaluation.plan.registers.templates,
          evaluation.frame,
          evaluation.frame.num[op.out]!,
          op.opcode === Opcode.aggregate && op.payload.what === "count" ? { is: "count" } : type,
          column?.unit,
          units,
        ),
      });
    }
  });
  void made;
  let out = "";
  let done = rule.at.start;
  for (const swap of swaps.sort((a, b) => a.at.start - b.at.start)) {
    if (swap.at.start < done) continue;
    out += text.slice(done, swap.at.start) + swap.text;
    done = swap.at.end;
  }
  return oneLine(out + text.slice(done, rule.at.end));
}

function valueText(
  evaluation: Evaluation,
  name: string,
  field: string | undefined,
  units: UnitSystem,
): string | undefined {
  const at = evaluation.plan.checked.byName.get(name);
  if (at === undefined) return undefined;
  const block = evaluation.plan.byId.get(evaluation.plan.checked.entries[at]!.id);
  if (block === undefined) return undefined;
  const all = shownOf(evaluation, block, units);
  const value = field === undefined ? all[0] : all.find((one) => one.name === `${name}.${field}`);
  const said = (block.entry.from?.hidden ?? name).replace(/^\w+ /, "");
  return value === undefined
    ? undefined
    : value.state === "known"
      ? value.text
      : value.state === "unknown"
        ? `${said} (not known)`
        : `${said} (none)`;
}
