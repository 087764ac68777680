// An evaluated job as a person reads it: values as texts, the card's lines, the state and what it waits for.
import { shownIn, writeValue } from "../../../core/format.ts";
import { type JobState, isRefused } from "../../../core/job-state.ts";
import type { Reason } from "../../../core/reason.ts";
import { reasonText } from "../../../core/reason-words.ts";
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { CardLine, JobView, Piece, Shown, UnitSystem } from "../../../core/view.ts";
import { listName } from "../plan/registers.ts";
import type { Block, Plan, Template, Value } from "../plan/plan.ts";
import { type Frame, isKnown, stateOf } from "./frame.ts";
import { waitsFor } from "./producers.ts";
import { shownReason } from "./reasons.ts";
import type { Evaluation } from "./evaluate.ts";
import { namesOf } from "../../../core/waiting-words.ts";
import { oneOfThese } from "./one-of.ts";
import { asksWaitedFor, jobStatus, linesThatApply, refers, type Turning } from "./status.ts";

/** `turning`: what the tolerances of the answers leave open. */
export function showEvaluation(evaluation: Evaluation, units: UnitSystem, turning?: Turning): JobView {
  const { plan, frame } = evaluation;
  const values: Shown[] = [];
  for (const block of valuedBlocks(plan))
    for (const one of shownOf(evaluation, block, units)) values.push(one);
  const stops = linesThatApply(evaluation, plan.stops);
  const steps = linesThatApply(evaluation, plan.steps);
  const { state, open, blocked } = jobStatus(evaluation, turning);
  const needed = isRefused(state) ? [] : asksWaitedFor(evaluation, open);
  const oneOf = oneOfThese(evaluation, needed);
  const again = state === "waiting" && needed.length === 0 ? (turning?.again ?? []) : [];
  return {
    state,
    values,
    waiting: [...new Set([...needed, ...oneOf.flat(), ...again])],
    ...(oneOf.length > 0 ? { oneOf } : {}),
    steps: state === "ready" ? steps.map((block) => cardLine(evaluation, block, units)) : [],
    cautions: plan.cautions.flatMap((block) => cautionLine(evaluation, block, state, units, turning) ?? []),
    stops: stops.map((block) => cardLine(evaluation, block, units)),
    findings: [...evaluation.given].flatMap(([ask, given]) =>
      given.is === "unusable"
        ? [{ code: given.code, ask, says: reasonText(given.reason), cause: given.reason }]
        : [],
    ),
    ...(state === "impossible"
      ? { blocked: blocked.map(({ reason, ids }) => ({ says: reasonText(reason), ids, cause: reason })) }
      : {}),
    broken: plan.promises
      .filter((block) => frame.num[block.when] === 0)
      .map((block) => ({ id: block.id, says: oneLine(ruleText(block)) })),
  };
}

/** A caution that applies, or that may apply in a job that is ready or within the tolerances. */
function cautionLine(
  evaluation: Evaluation,
  block: Block,
  state: JobState,
  units: UnitSystem,
  turning: Turning | undefined,
): CardLine | undefined {
  const { plan, frame } = evaluation;
  if (frame.num[block.when] === 1) return cardLine(evaluation, block, units);
  if (turning?.rows.has(block.id)) return { ...cardLine(evaluation, block, units), mayApply: turning.again };
  if (state !== "ready" || stateOf(frame, block.when) !== "unknown") return undefined;
  return { ...cardLine(evaluation, block, units), mayApply: [...waitsFor(plan, frame, block.when)] };
}

const valued = new WeakMap<Plan, readonly Block[]>();

/** Blocks that may show a value, in the order of the book: found once for all jobs of a plan. */
function valuedBlocks(plan: Plan): readonly Block[] {
  const known = valued.get(plan);
  if (known !== undefined) return known;
  const found = plan.checked.entries.flatMap((entry) => {
    const { body } = entry.statement;
    // A rule that only serves as the value underneath shows no value of its own.
    if (entry.from?.hidden !== undefined) return [];
    const block = VALUED.has(body.keyword === "unreadable" ? body.meant : body.keyword)
      ? plan.byId.get(entry.id)
      : undefined;
    return block === undefined ? [] : [block];
  });
  valued.set(plan, found);
  return found;
}

/** Whether lines can come from several books: in a book that only uses another, all lines are its own. */
const isLayered = (plan: Plan): boolean =>
  plan.checked.composition?.under.some((one) => one.as === "amended") === true;

const ruleText = (block: Block): string => {
  const { text, ruleAt } = block.entry.statement;
  return ruleAt === undefined ? "" : text.slice(ruleAt.start, ruleAt.end);
};

export const oneLine = (text: string): string =>
  text
    .replace(/--[^\n]*/g, "")
    .replace(/\s+/g, " ")
    .trim();

// ───────────── values ─────────────

const VALUED = new Set(["ask", "dial", "figure", "chart", "list"]);

/** What a statement shows: one value, several for a chart of several columns, the rows of a list. */
export function shownOf(evaluation: Evaluation, block: Block, units: UnitSystem): Shown[] {
  const { statement, checked } = block.entry;
  const name = statement.name?.text;
  const keyword = statement.body.keyword === "unreadable" ? statement.body.meant : statement.body.keyword;
  if (name === undefined || !VALUED.has(keyword)) return [];
  // The second statement of one name has its finding and no value of its own.
  if (evaluation.plan.checked.entries[evaluation.plan.checked.byName.get(name) ?? -1]?.id !== block.id)
    return [];
  if (statement.body.keyword === "unreadable") return [impossible(name, { code: "unreadable" })];
  const type = checked.signature?.type;
  // A chart that is only called has a value in each call and none of its own.
  if (checked.signature?.calledOnly === true) return [];
  if (type?.is === "list") return [shownList(evaluation, block, name, type.columns, units)];
  if (type?.is === "row") {
    const cells = block.values.map((value, i) => ({
      ...shown(evaluation, value, `${name}.${type.columns[i]!.name}`, units),
    }));
    const state = cells.find((cell) => cell.state !== "known")?.state ?? "known";
    const first = cells.find((cell) => cell.state !== "known");
    return [
      {
        name,
        state,
        text: first?.text ?? cells.map((cell) => cell.text).join(" · "),
        unit: null,
        value: first
          ? null
          : [Object.fromEntries(cells.map((cell, i) => [type.columns[i]!.name, cell.value]))],
        ...(first?.waitsFor ? { waitsFor: first.waitsFor } : {}),
        ...(first?.reason ? { reason: first.reason } : {}),
        ...(first?.cause ? { cause: first.cause } : {}),
      },
      ...cells,
    ];
  }
  const value = block.values[0];
  if (value === undefined) return [impossible(name, { code: "finding" })];
  if (type?.is === "kept") return [shownCandidates(evaluation, block, name, value, type.of)];
  return [shown(evaluation, value, name, units)];
}

/** What is shown of a value that can never be known. */
function impossible(name: string, cause: Reason): Shown {
  const reason = reasonText(cause);
  return { name, state: "impossible", text: reason, value: null, unit: null, reason, cause };
}

export function shown(evaluation: Evaluation, of: Value, name: string, units: UnitSystem): Shown {
  const { plan, frame } = evaluation;
  const { register } = of;
  const state = stateOf(frame, register);
  switch (state) {
    case "unknown": {
      const waits = [...waitsFor(plan, frame, register)];
      const oneOf = oneOfThese(evaluation, waits);
      return {
        name,
        state,
        text: waits.length > 0 ? `waits for ${namesOf(waits, oneOf)}` : "is not known",
        value: null,
        unit: null,
        waitsFor: [...new Set([...waits, ...oneOf.flat()])],
      };
    }
    case "impossible":
      return impossible(name, shownReason(plan, frame, register));
    case "known": {
      const number = frame.num[register]!;
      if (of.type.is === "text") {
        const text = writeAny({ plan, frame }, number, of, units);
        return { name, state, text, value: text, unit: null };
      }
      return { name, state, ...written(of, number, units) };
    }
  }
}

type Typed = Pick<Value, "type" | "unit">;
type PlanAndFrame = Pick<Evaluation, "plan" | "frame">;
type Written = Pick<Shown, "text" | "value" | "unit">;

/** Texts of numbers, by value and system: after an edit most values of most jobs are unchanged. */
const writings = new WeakMap<Value, Map<UnitSystem, Map<number, Written>>>();
const MOST_WRITTEN = 200;

function written(of: Value, number: number, units: UnitSystem): Written {
  let bySystem = writings.get(of);
  if (bySystem === undefined) {
    bySystem = new Map();
    writings.set(of, bySystem);
  }
  let known = bySystem.get(units);
  if (known === undefined) {
    known = new Map();
    bySystem.set(units, known);
  }
  const before = known.get(number);
  if (before !== undefined) return before;
  const made: Written = {
    text: writeValue(number, of.type, of.unit, units),
    ...plainValue(number, of, units),
  };
  if (known.size >= MOST_WRITTEN) known.clear();
  known.set(number, made);
  return made;
}

function plainValue(number: number, { type, unit }: Typed, units: UnitSystem): Pick<Shown, "value" | "unit"> {
  if (type.is === "kind") return { value: type.words[number] ?? null, unit: null };
  if (type.is === "yes-no") return { value: number === 1, unit: null };
  return shownIn(number, type, unit, units);
}

/** A text that inserts texts is written out to this depth; a faulty book may have one that inserts itself. */
const MAX_TEXT_DEPTH = 200;

/** Like `writeValue`, and for texts their template with its values filled in. */
export function writeAny(
  job: PlanAndFrame,
  number: number,
  { type, unit }: Typed,
  units: UnitSystem,
  depth = 0,
): string {
  if (type.is !== "text") return writeValue(number, type, unit, units);
  const template = job.plan.registers.templates[number];
  return template === undefined || depth > MAX_TEXT_DEPTH
    ? ""
    : template.pieces
        .map((piece) => (typeof piece === "string" ? piece : pieceText(job, piece, units, depth + 1)))
        .join("");
}

function pieceText(job: PlanAndFrame, piece: Value, units: UnitSystem, depth = 0): string {
  const { frame } = job;
  if (!isKnown(frame, piece.register))
    return stateOf(frame, piece.register) === "unknown"
      ? "not known yet"
      : reasonText(shownReason(job.plan, frame, piece.register));
  return writeAny(job, frame.num[piece.register]!, piece, units, depth);
}

function shownList(
  evaluation: Evaluation,
  block: Block,
  name: string,
  columns: readonly { readonly name: string; readonly type: Type; readonly unit: Unit | undefined }[],
  units: UnitSystem,
): Shown {
  const { plan, frame } = evaluation;
  const register = plan.registers.byName.get(listName(name));
  const bad = block.entry.checked.list === undefined || register === undefined;
  if (bad) return impossible(name, { code: "finding" });
  if (!isKnown(frame, register))
    return shown(evaluation, { register, type: { is: "count" }, unit: undefined }, name, units);
  const rows = frame.lists[block.slot];
  if (rows === undefined) return impossible(name, { code: "list-without-rows" });
  const counter = block.entry.checked.list!.counter;
  const value = Array.from({ length: rows.count }, (_, i) => ({
    [counter]: rows.first + i,
    ...Object.fromEntries(
      columns.map((column, c) => {
        const number = rows.columns[c]![i]!;
        return [column.name, number === number ? writeAny(evaluation, number, column, units) : null];
      }),
    ),
  }));
  return { name, state: "known", text: rows.count === 1 ? "1 row" : `${rows.count} rows`, value, unit: null };
}

function shownCandidates(
  { plan, frame }: Evaluation,
  block: Block,
  name: string,
  { register }: Value,
  of: Type,
): Shown {
  const candidates = frame.candidateRows[block.slot];
  if (!isKnown(frame, register) || candidates === undefined)
    return {
      ...impossible(name, shownReason(plan, frame, register)),
      state: stateOf(frame, register),
      ...(isKnown(frame, register) ? { text: "" } : {}),
    };
  const words = [
    ...new Set([...candidates.values].filter((_, r) => candidates.left[r]).map((at) => frame.num[at]!)),
  ]
    .sort((a, b) => a - b)
    .map((x) => writeAny({ plan, frame }, x, { type: of, unit: undefined }, "book"));
  return {
    name,
    state: "known",
    text: words.join(" or "),
    value: words.map((word) => ({ word })),
    unit: null,
  };
}

// ───────────── lines of the card ─────────────

export function cardLine(evaluation: Evaluation, block: Block, units: UnitSystem): CardLine {
  const { plan, frame } = evaluation;
  const { statement } = block.entry;
  const pieces = piecesOf(evaluation, block.texts.title, units);
  // A time of zero is left out: "then wait 0 s" would only puzzle.
  const time = (register: number) =>
    register >= 0 && isKnown(frame, register) && Math.round(frame.num[register]!) !== 0
      ? writeMinutes(frame.num[register]!)
      : undefined;
  const takes = time(block.takes);
  const waits = time(block.waits);
  const because = block.texts.because && plainText(piecesOf(evaluation, block.texts.because, units));
  const then = block.texts.then && piecesOf(evaluation, block.texts.then, units);
  const basis = basisText(block);
  return {
    id: block.id,
    ...(statement.name ? { name: block.entry.from?.beneath ?? statement.name.text } : {}),
    ...(block.entry.from && isLayered(plan) ? { layer: block.entry.from.layer } : {}),
    text: plainText(pieces),
    pieces,
    ...(refers(block) ? { refers: true } : {}),
    ...(then !== undefined ? { then: plainText(then), thenPieces: then } : {}),
    ...(because !== undefined ? { because } : {}),
    ...(basis !== undefined ? { basis } : {}),
    ...(takes !== undefined ? { takes } : {}),
    ...(waits !== undefined ? { waits } : {}),
    ...(takes !== undefined || waits !== undefined
      ? { minutes: { takes: minutes(frame, block.takes), waits: minutes(frame, block.waits) } }
      : {}),
  };
}

const plainText = (pieces: readonly Piece[]): string =>
  pieces.map((piece) => (typeof piece === "string" ? piece : piece.text)).join("");

const minutes = (frame: Frame, register: number): number =>
  register >= 0 && isKnown(frame, register) ? Math.round((frame.num[register]! / 60) * 100) / 100 : 0;

/** Times on a card: 45 min, 1 h 30 min, 16 h. */
function writeMinutes(seconds: number): string {
  const whole = Math.round(seconds / 60);
  if (seconds < 60) return `${Math.round(seconds)} s`;
  if (whole < 60) return `${whole} min`;
  return whole % 60 === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

export const basisText = (block: Block): string | undefined => {
  const { from } = block.entry.statement.clauses;
  return from && (from.detail === undefined ? from.kind : `${from.kind} "${from.detail}"`);
};

function piecesOf({ plan, frame }: Evaluation, template: Template | undefined, units: UnitSystem): Piece[] {
  return (template?.pieces ?? []).map((piece) =>
    typeof piece === "string"
      ? piece
      : {
          text: pieceText({ plan, frame }, piece, units),
          state: stateOf(frame, piece.register),
          ...(piece.name !== undefined ? { name: piece.name } : {}),
        },
  );
}

export const textOf = (
  evaluation: Evaluation,
  template: Template | undefined,
  units: UnitSystem,
): string | undefined =>
  template &&
  piecesOf(evaluation, template, units)
    .map((piece) => (typeof piece === "string" ? piece : piece.text))
    .join("");
