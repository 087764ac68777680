// Evaluates a job: answers into a frame, then the plan's blocks in order. Given the job before, only blocks
// that are new, or that read a register whose value has changed, run again.
import type { Reason } from "../../../core/reason.ts";
import { reasonText } from "../../../core/reason-words.ts";
import type { Answers } from "../../../core/view.ts";
import type { Entry } from "../../language/check/book.ts";
import { type Given, readAnswer } from "./answer.ts";
import { Opcode, type Op, extraReads } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import {
  type Frame,
  IMPOSSIBLE,
  UNKNOWN,
  copyFrame,
  resizedFrame,
  isKnown,
  newFrame,
  reasonOf,
  setConstants,
} from "./frame.ts";
import { runOperations } from "./run-operations.ts";

export interface Evaluation {
  readonly plan: Plan;
  readonly frame: Frame;
  readonly answers: Answers;
  /** What each answer was read as, by ask. */
  readonly given: ReadonlyMap<string, Given>;
}

export function evaluate(plan: Plan, answers: Answers, before?: Evaluation): Evaluation {
  const given = readAnswers(plan, answers);
  if (before === undefined || before.plan.registers !== plan.registers) {
    const frame = newFrame(plan);
    for (const block of asksOf(plan)) putAnswer(frame, block, given.get(nameOf(block)));
    for (const block of plan.blocks) runOperations(block.ops, frame);
    return { plan, frame, answers, given };
  }
  return { plan, frame: evaluateAgain(plan, before, copyFrame(before.frame), given), answers, given };
}

/**
 * For one job after another: each is evaluated in the same frame, from a copy of the blank job. The result is
 * valid until the next call.
 */
export function evaluateEach(plan: Plan, blank: Evaluation): (answers: Answers) => Evaluation {
  const { frame } = blank;
  const [num, state, cause] = [frame.num.slice(), frame.state.slice(), frame.cause.slice()];
  return (answers) => {
    num.set(frame.num);
    state.set(frame.state);
    cause.set(frame.cause);
    const given = readAnswers(plan, answers);
    const own: Frame = {
      ...frame,
      num,
      state,
      cause,
      reasons: new Map(frame.reasons),
      possibleRows: new Map(frame.possibleRows),
      lists: [...frame.lists],
      candidateRows: [...frame.candidateRows],
    };
    return { plan, frame: evaluateAgain(plan, blank, own, given), answers, given };
  };
}

/**
 * For many jobs of one plan, in one frame: what no answer can change runs once, what only a text shows does
 * not run. `values` are the answers in the order of `asksOf`, NaN where there is none. The frame is valid
 * until the next call. `untold` are the asks answered "cannot tell" in all of these jobs.
 */
export function worker(plan: Plan, untold?: ReadonlySet<Block>): (values: Float64Array) => Frame {
  const frame = newFrame(plan);
  const asks = asksOf(plan);
  const registers = Int32Array.from(asks, (block) => block.answer);
  for (const block of asks)
    if (block.cannotTell >= 0) frame.num[block.cannotTell] = untold?.has(block) ? 1 : 0;
  const { once, each } = sorted(plan, registers);
  runOperations(once, frame);
  // Every operation writes its register, so nothing has to be reset between two jobs.
  return (values) => {
    frame.work = 0;
    for (let i = 0; i < registers.length; i++) frame.num[registers[i]!] = values[i]!;
    runOperations(each, frame);
    return frame;
  };
}

/**
 * Operations that depend on no answer, and those that do; without those whose outcome no value, line or time
 * needs.
 */
function sorted(
  plan: Plan,
  answers: Int32Array,
): { readonly once: readonly Op[]; readonly each: readonly Op[] } {
  const looked = new Set<number>();
  for (const block of plan.blocks)
    for (const register of [...block.outputs, block.when, block.takes, block.waits]) looked.add(register);
  const needed = new Set(looked);
  const backwards: Op[] = [];
  const ops = plan.blocks.flatMap((block) => [...block.ops]);
  for (let i = ops.length - 1; i >= 0; i--) {
    const op = ops[i]!;
    if (op.opcode !== Opcode.list && !needed.has(op.out)) continue;
    backwards.push(op);
    for (const register of readsOf(op)) needed.add(register);
  }
  const varies = new Set<number>(answers);
  const [once, each]: [Op[], Op[]] = [[], []];
  const readers = new Map<number, number>();
  for (const op of backwards.reverse()) {
    if (!readsOf(op).some((register) => varies.has(register))) {
      once.push(op);
      continue;
    }
    varies.add(op.out);
    each.push(op);
    for (const register of readsOf(op)) readers.set(register, (readers.get(register) ?? 0) + 1);
  }
  return {
    once,
    each: withoutCopies(each, (register) => readers.get(register) === 1 && !looked.has(register)),
  };
}

/** Registers that an operation reads, those that the rows of a list read too. */
function readsOf(op: Op): readonly number[] {
  const plain =
    op.opcode === Opcode.aggregate ||
    op.opcode === Opcode.candidateCount ||
    op.opcode === Opcode.firstCandidate ||
    op.opcode === Opcode.candidatesAmong
      ? [op.in1, op.in2]
      : [op.in0, op.in1, op.in2];
  const inner = op.opcode === Opcode.list ? op.payload.ops.flatMap((one) => [...readsOf(one)]) : [];
  return [...plain.filter((register) => register >= 0), ...extraReads(op), ...inner];
}

/**
 * Drops a copy right after the only operation that it copies: the operation writes to the register of the
 * copy.
 */
function withoutCopies(ops: readonly Op[], isPassing: (register: number) => boolean): readonly Op[] {
  const remaining: Op[] = [];
  for (const op of ops) {
    const last = remaining.at(-1);
    if (
      op.opcode === Opcode.copy &&
      op.in1 < 0 &&
      last !== undefined &&
      last.out === op.in0 &&
      isPassing(op.in0)
    )
      remaining[remaining.length - 1] = {
        opcode: last.opcode,
        out: op.out,
        in0: last.in0,
        in1: last.in1,
        in2: last.in2,
        payload: last.payload,
        at: last.at,
      } as Op;
    else remaining.push(op);
  }
  return remaining;
}

export function asksOf(plan: Plan): readonly Block[] {
  const known = asks.get(plan);
  if (known !== undefined) return known;
  const found = plan.checked.entries.flatMap((entry) =>
    entry.statement.body.keyword === "ask" ? [plan.byId.get(entry.id)!] : [],
  );
  asks.set(plan, found);
  return found;
}

const asks = new WeakMap<Plan, readonly Block[]>();

const nameOf = (block: Block): string => block.entry.statement.name?.text ?? "";

function readAnswers(plan: Plan, answers: Answers): ReadonlyMap<string, Given> {
  const given = new Map<string, Given>();
  for (const [name, typed] of Object.entries(answers)) {
    if (typeof typed !== "string") continue;
    const at = plan.checked.byName.get(name);
    const entry = at === undefined ? undefined : plan.checked.entries[at];
    if (entry === undefined || entry.statement.body.keyword !== "ask") {
      given.set(name, {
        is: "unusable",
        code: "answer/not-asked",
        reason: { code: "answer/not-asked", ask: name.slice(0, 60) },
      });
      continue;
    }
    const read = readAnswer(name, entry.checked, typed, meaningsFor(plan, entry));
    if (read !== undefined) given.set(name, read);
  }
  return given;
}

/** What the words of an ask's kind mean, where it has one. */
function meaningsFor({ checked }: Plan, entry: Entry): readonly string[] {
  const type = entry.checked.signature?.type;
  if (type?.is !== "kind") return [];
  const body = checked.entries[checked.byName.get(`kind ${type.kind}`) ?? -1]?.statement.body;
  if (body?.keyword !== "kind") return [];
  const means = new Map(body.words.map((one) => [one.word, one.means?.pieces.join("") ?? ""]));
  return type.words.map((word) => means.get(word) ?? "");
}

/** Sets the registers of an ask. Returns whether anything changed. */
function putAnswer(frame: Frame, block: Block, given: Given | undefined): boolean {
  const value = given?.is === "value" ? given.value : Number.NaN;
  const state = given?.is === "unusable" ? IMPOSSIBLE : UNKNOWN;
  const tell = given?.is === "cannot-tell" ? 1 : 0;
  if (block.answer < 0) return false;
  const { answer, cannotTell } = block;
  const differs =
    !Object.is(frame.num[answer], value) ||
    (value !== value && frame.state[answer] !== state) ||
    (cannotTell >= 0 && frame.num[cannotTell] !== tell) ||
    (given?.is === "unusable" && !sameReason(frame.reasons.get(answer), given.reason));
  frame.num[answer] = value;
  frame.state[answer] = state;
  frame.cause[answer] = answer;
  if (given?.is === "unusable") frame.reasons.set(answer, given.reason);
  if (cannotTell >= 0) frame.num[cannotTell] = tell;
  return differs;
}

const sameReason = (a: Reason | undefined, b: Reason): boolean =>
  a === b || (a !== undefined && reasonText(a) === reasonText(b));

/** Runs what differs in the plan and in the answers, in `copy`, a copy of the frame of `before`. */
function evaluateAgain(
  plan: Plan,
  before: Evaluation,
  copy: Frame,
  given: ReadonlyMap<string, Given>,
): Frame {
  const frame = resizedFrame(copy, plan);
  frame.work = 0;
  const { blocks } = plan;
  const { from, readers } = readersIn(plan);
  const stale = plan === before.plan ? new Uint8Array(blocks.length) : renewedIn(plan, before.plan).slice();
  const change = (register: number) => {
    for (let i = from[register]!; i < from[register + 1]!; i++) stale[readers[i]!] ||= 1;
  };
  const renewed = 2;
  const askAt = asksByName(plan);
  const put = (name: string) => {
    const at = askAt.get(name);
    if (at === undefined || !putAnswer(frame, blocks[at]!, given.get(name))) return;
    change(blocks[at]!.answer);
    stale[at] ||= 1;
  };
  for (let at = stale.indexOf(renewed); at >= 0; at = stale.indexOf(renewed, at + 1)) {
    setConstants(frame, blocks[at]!);
    if (blocks[at]!.answer >= 0) put(nameOf(blocks[at]!));
  }
  // Other asks differ only where one of the two jobs answers them.
  for (const name of before.given.keys()) put(name);
  for (const name of given.keys()) put(name);
  for (let at = 0; at < blocks.length; at++) {
    if (stale[at] === 0) continue;
    const block = blocks[at]!;
    const isNew = stale[at] === renewed;
    const { outputs } = block;
    if (isNew || block.slot >= 0) {
      // Lists and candidate rows hold more than one number, and a new block may hold a constant: these always
      // count as changed.
      runOperations(block.ops, frame);
      if (isNew) for (const register of outputs) change(register);
      if (block.slot >= 0) for (const register of block.writes) change(register);
      continue;
    }
    if (outputs.length === 1) {
      const register = outputs[0]!;
      const num = frame.num[register]!;
      const reason = num === num ? undefined : whyNot(frame, register);
      runOperations(block.ops, frame);
      const now = frame.num[register]!;
      if (num === num || now === now ? num !== now : reason !== whyNot(frame, register)) change(register);
      continue;
    }
    const saved = Array.from(outputs, (register) => [frame.num[register]!, whyNot(frame, register)] as const);
    runOperations(block.ops, frame);
    saved.forEach(([num, reason], i) => {
      if (!Object.is(num, frame.num[outputs[i]!]) || reason !== whyNot(frame, outputs[i]!))
        change(outputs[i]!);
    });
  }
  // Nothing reads the registers of a removed statement: its name is unknown to the checker.
  return frame;
}

/** Undefined for a known value; else whether it waits, or why it is impossible. */
const whyNot = (frame: Frame, register: number): string | undefined =>
  isKnown(frame, register)
    ? undefined
    : frame.state[register] === IMPOSSIBLE
      ? `impossible: ${reasonText(reasonOf(frame, register))}`
      : "unknown";

// Facts about a plan, or about two versions of it, are found once for all jobs.

const renewals = new WeakMap<Plan, { readonly before: WeakRef<Plan>; readonly renewed: Uint8Array }>();

/** By block: 2 where it is not the block of the plan before, else 0. */
function renewedIn(plan: Plan, before: Plan): Uint8Array {
  const known = renewals.get(plan);
  if (known !== undefined && known.before.deref() === before) return known.renewed;
  const renewed = new Uint8Array(plan.blocks.length);
  plan.blocks.forEach((block, at) => {
    const old = before.byId.get(block.id);
    if (
      old === undefined ||
      (old !== block &&
        (old.ops !== block.ops || old.constants !== block.constants || old.nothing !== block.nothing))
    )
      renewed[at] = 2;
  });
  renewals.set(plan, { before: new WeakRef(before), renewed });
  return renewed;
}

interface Readers {
  /** The blocks that read register r are `readers[from[r]]` to before `readers[from[r + 1]]`. */
  readonly from: Int32Array;
  readonly readers: Int32Array;
}

const reading = new WeakMap<Plan, Readers>();

function readersIn(plan: Plan): Readers {
  const known = reading.get(plan);
  if (known !== undefined) return known;
  const from = new Int32Array(plan.registers.next + 2);
  for (const { inputs } of plan.blocks) for (let i = 0; i < inputs.length; i++) from[inputs[i]! + 1]!++;
  for (let register = 0; register + 1 < from.length; register++) from[register + 1]! += from[register]!;
  const readers = new Int32Array(from[from.length - 1]!);
  const next = from.slice();
  plan.blocks.forEach(({ inputs }, at) => {
    for (let i = 0; i < inputs.length; i++) readers[next[inputs[i]!]!++] = at;
  });
  const made = { from, readers };
  reading.set(plan, made);
  return made;
}

const asking = new WeakMap<Plan, ReadonlyMap<string, number>>();

/** The index of the block of each ask that has a register for its answer. */
function asksByName(plan: Plan): ReadonlyMap<string, number> {
  const known = asking.get(plan);
  if (known !== undefined) return known;
  const made = new Map<string, number>();
  plan.blocks.forEach((block, at) => {
    if (block.answer >= 0 && !made.has(nameOf(block))) made.set(nameOf(block), at);
  });
  asking.set(plan, made);
  return made;
}
