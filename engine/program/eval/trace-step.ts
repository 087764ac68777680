// One step of a trace: a statement with its value, its rule with numbers filled in, and what decided it.
import type { Decision } from "../../../core/reason.ts";
import { decisionsText, reasonText } from "../../../core/reason-words.ts";
import type { Span } from "../../../core/span.ts";
import type { Shown, TraceStep, TracedLine, UnitSystem } from "../../../core/view.ts";
import { placed } from "../../language/syntax/split.ts";
import type { Statement } from "../../language/syntax/tree.ts";
import type { Block, Plan } from "../plan/plan.ts";
import type { Evaluation } from "./evaluate.ts";
import { filledRule, valueText } from "./filled-rule.ts";
import { stateOf } from "./frame.ts";
import { basisText, cardLine, oneLine, shown, shownOf, textOf } from "./show.ts";
import { decidedBranch, decidedCalls, decidedRow } from "./trace-decisions.ts";

type Of<Keyword extends Statement["body"]["keyword"]> = Extract<Statement["body"], { keyword: Keyword }>;

/** What every step says of its statement. */
type Common = Pick<TraceStep, "name" | "id" | "layer" | "rests" | "because" | "basis" | "rule">;
/** What a step says of its value. */
type Value = Pick<TraceStep, "state" | "value" | "waitsFor" | "cause" | "holds">;
type Decided = Pick<TraceStep, "decided" | "decidedBy">;

interface Step {
  readonly evaluation: Evaluation;
  readonly block: Block;
  readonly column: number | undefined;
  readonly units: UnitSystem;
  readonly common: Common;
}

/** `column` for one value of a chart of several; `rests` are the numbers of the steps that it rests on. */
export function traceStep(
  evaluation: Evaluation,
  block: Block,
  column: number | undefined,
  rests: readonly number[],
  units: UnitSystem,
): TraceStep {
  const { statement, checked } = block.entry;
  const { body } = statement;
  const step: Step = {
    evaluation,
    block,
    column,
    units,
    common: commonOf(evaluation, block, rests, units),
  };
  switch (body.keyword) {
    case "ask":
      return { ...step.common, ...valueOfStep(step), ...answerOf(step), at: nameAt(block) };
    case "dial":
      return {
        ...step.common,
        ...valueOfStep(step),
        does: "dial",
        at: placed(block.entry.piece, body.rule.at),
        filled: sourceOf(block, body.rule.at),
        ...decidedBy([]),
      };
    case "figure":
      return figureStep(step, body);
    case "chart":
      return checked.signature?.calledOnly === true ? calledChartStep(step) : chartStep(step, body);
    case "list":
      return listStep(step, body);
    case "step":
    case "caution":
    case "stop":
      return lineStep(step, body.keyword);
    case "promise":
      return promiseStep(step, body);
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
        ...step.common,
        does: "figure",
        state: "impossible",
        value: reasonText({ code: "unreadable" }),
        cause: { code: "unreadable" },
        at: nameAt(block),
        filled: "",
        ...decidedBy([]),
      };
  }
}

// ───────────── parts of every step ─────────────

const sourceOf = (block: Block, at: Span): string =>
  oneLine(block.entry.statement.text.slice(at.start, at.end));

/** The statement's name in the text of the book, or its first line where it has none. */
const nameAt = ({ entry: { statement, piece } }: Block): Span =>
  placed(piece, statement.name?.at ?? { start: 0, end: statement.text.split("\n")[0]!.length });

const decidedBy = (by: readonly Decision[]): Decided => ({ decided: decisionsText(by), decidedBy: by });

function commonOf(evaluation: Evaluation, block: Block, rests: readonly number[], units: UnitSystem): Common {
  const { statement, from } = block.entry;
  const because = textOf(evaluation, block.texts.because, units);
  const basis = basisText(block);
  return {
    name: from?.hidden ?? from?.beneath ?? statement.name?.text ?? block.id,
    id: visibleId(evaluation.plan, block),
    layer: layerOf(evaluation.plan, block, undefined),
    rests,
    ...(because !== undefined ? { because } : {}),
    ...(basis !== undefined ? { basis } : {}),
    rule: statement.ruleAt ? sourceOf(block, statement.ruleAt) : "",
  };
}

function valueOfStep({ evaluation, block, column, units, common }: Step): Value {
  const value: Shown | undefined =
    column !== undefined
      ? shown(evaluation, block.values[column]!, common.name, units)
      : shownOf(evaluation, block, units)[0];
  return {
    state: value?.state ?? "known",
    value: value?.text ?? "",
    ...(value?.waitsFor !== undefined ? { waitsFor: value.waitsFor } : {}),
    ...(value?.cause !== undefined ? { cause: value.cause } : {}),
    ...(typeof value?.value === "boolean" ? { holds: value.value } : {}),
  };
}

/** The row that a reader sees for a statement: for a rule that is replaced, the row of the replacement. */
function visibleId({ checked }: Plan, { entry, id }: Block): string {
  const hidden = entry.from?.hidden;
  if (hidden === undefined) return id;
  const above = ["", "step ", "caution ", "stop "]
    .map((word) => checked.byName.get(word + hidden))
    .find((at) => at !== undefined);
  return above === undefined ? id : checked.entries[above]!.id;
}

/** Name of the book that a statement is written in, or, of a chart with rows of several, its row at `at`. */
function layerOf(plan: Plan, { entry }: Block, at: Span | undefined): string {
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

// ───────────── by kind of statement ─────────────

function answerOf({
  evaluation,
  block,
  units,
}: Step): Pick<TraceStep, "does" | "filled" | "because"> & Decided {
  const name = block.entry.statement.name!.text;
  const given = evaluation.given.get(name);
  const answer = evaluation.answers[name] ?? "";
  if (given?.is === "value")
    return { does: "answer", filled: answer, ...decidedBy([{ code: "answered", answer }]) };
  if (given?.is === "unusable")
    return { does: "answer", filled: answer, ...decidedBy([{ code: "unusable", reason: given.reason }]) };
  const { ifUnknown, ifBlank } = block.entry.statement.clauses;
  const fallback = given === undefined ? ifBlank : ifUnknown;
  if (fallback !== undefined) {
    const { takeBecause, blankBecause = takeBecause } = block.texts;
    const said = given === undefined ? blankBecause : takeBecause;
    const because = fallback.because && textOf(evaluation, said, units);
    return {
      does: "taken",
      filled: filledRule(evaluation, block, fallback.take, units),
      ...decidedBy([{ code: given === undefined ? "taken-for-blank" : "taken-instead" }]),
      ...(because !== undefined ? { because } : {}),
    };
  }
  return { does: "unanswered", filled: "", ...decidedBy([{ code: "not-answered" }]) };
}

function figureStep(step: Step, body: Of<"figure">): TraceStep {
  const { evaluation, block, units, common } = step;
  const { statement, piece, from } = block.entry;
  const branch = body.rule.is === "choose" ? decidedBranch(evaluation, block, body.rule, units) : undefined;
  const taken = branch?.value ?? body.rule;
  const isUnderneath = statement.instead !== undefined && branch?.value.at === statement.instead;
  const by: Decision[] = isUnderneath
    ? [{ code: "as-in-book", book: from?.was?.layer }]
    : branch
      ? [branch.by]
      : [];
  // A value that the rule underneath gives has that rule's reason and basis, not those of the layer.
  const { because: _because, basis: _basis, ...bare } = common;
  return {
    ...(isUnderneath ? bare : common),
    ...valueOfStep(step),
    does: "figure",
    at: placed(piece, branch?.at ?? body.rule.at),
    filled: filledRule(evaluation, block, taken, units),
    ...decidedBy([...by, ...decidedCalls(evaluation, block, taken)]),
  };
}

/** A chart with conditions of its own has a value only where it is called. */
const calledChartStep = ({ common, block }: Step): TraceStep => ({
  ...common,
  does: "chart",
  state: "known",
  value: "read by what stands in brackets",
  at: nameAt(block),
  filled: "",
  ...decidedBy([]),
});

function chartStep(step: Step, body: Of<"chart">): TraceStep {
  const { evaluation, block, column, units } = step;
  const decided = decidedRow(evaluation, block, column);
  const at = decided.at && placed(block.entry.piece, decided.at);
  return {
    ...withReasonOfRow(step, at),
    ...valueOfStep(step),
    does: "chart",
    at: at ?? nameAt(block),
    filled: body.conditions
      .map(({ text }) => {
        const value = valueText(evaluation, text, undefined, units) ?? "";
        return value.startsWith(`${text} (`) ? value : `${text} ${value}`;
      })
      .join(", "),
    ...decidedBy(decided.by),
  };
}

/** Of a chart with rows of several books: the layer of the row that decided, and that layer's own reason. */
function withReasonOfRow({ evaluation: { plan }, block, common }: Step, at: Span | undefined): Common {
  const layer = layerOf(plan, block, at);
  const added = block.entry.from?.added?.findLast((one) => one.layer === layer);
  if (added === undefined) return { ...common, layer };
  const { because: _because, basis: _basis, ...bare } = common;
  return { ...bare, ...added };
}

function listStep(step: Step, body: Of<"list">): TraceStep {
  const { evaluation, block, units, common } = step;
  const [from, to] = [body.from, body.to].map((end) => filledRule(evaluation, block, end, units));
  return {
    ...common,
    ...valueOfStep(step),
    does: "list",
    at: nameAt(block),
    filled: `${body.counter.text} from ${from} to ${to}`,
    ...decidedBy([]),
  };
}

function lineStep({ evaluation, block, units, common }: Step, does: "step" | "caution" | "stop"): TraceStep {
  const { when } = block.entry.statement.clauses;
  const state = stateOf(evaluation.frame, block.when);
  const line: TracedLine = {
    applies: appliesBy(state, evaluation.frame.num[block.when]!),
    text: cardLine(evaluation, block, units).text,
    ...(when ? { condition: sourceOf(block, when.at) } : {}),
  };
  return {
    ...common,
    does,
    state,
    value: `${line.applies}: ${line.text}`,
    line,
    at: when ? placed(block.entry.piece, when.at) : nameAt(block),
    rule: when ? `when ${line.condition}` : "always",
    filled: when ? filledRule(evaluation, block, when, units) : "",
    ...decidedBy([]),
  };
}

function appliesBy(state: TraceStep["state"], value: number): TracedLine["applies"] {
  switch (state) {
    case "known":
      return value === 1 ? "yes" : "no";
    case "unknown":
      return "waits";
    case "impossible":
      return "has no answer";
  }
}

function promiseStep({ evaluation, block, units, common }: Step, body: Of<"promise">): TraceStep {
  const state = stateOf(evaluation.frame, block.when);
  const kept = evaluation.frame.num[block.when] === 1;
  return {
    ...common,
    does: "promise",
    state,
    value: state === "known" ? (kept ? "kept" : "broken") : "not known",
    at: placed(block.entry.piece, body.rule.at),
    filled: filledRule(evaluation, block, body.rule, units),
    ...decidedBy([]),
  };
}
