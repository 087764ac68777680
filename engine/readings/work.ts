// Works a job: answers into a frame, the plan's blocks in order. Given the job as it was, only blocks that are new,
// or that read a place whose value has changed, run again.
import type { Answers } from "../../core/view.ts";
import { type Given, readAnswer } from "../check/answer.ts";
import type { Op } from "../plan/op.ts";
import type { Block, Plan } from "../plan/plan.ts";
import { type Frame, IMPOSSIBLE, UNKNOWN, copied, grown, newFrame, seed } from "./frame.ts";
import { run } from "./values.ts";

export interface Worked {
  readonly plan: Plan;
  readonly frame: Frame;
  readonly answers: Answers;
  /** What each answer was read as, by ask. */
  readonly given: ReadonlyMap<string, Given>;
}

export function work(plan: Plan, answers: Answers, before?: Worked): Worked {
  const given = readAnswers(plan, answers);
  if (before === undefined || before.plan.places !== plan.places) {
    const frame = newFrame(plan);
    for (const block of asksOf(plan)) putAnswer(frame, block, given.get(nameOf(block)));
    for (const block of plan.blocks) run(block.ops, frame);
    return { plan, frame, answers, given };
  }
  return { plan, frame: again(plan, before, given), answers, given };
}

/** The same for many jobs of one plan: a frame made once, its numbers set back before each job. */
export function worker(plan: Plan): (values: Float64Array) => Frame {
  const frame = newFrame(plan);
  const asks = asksOf(plan);
  const ops: Op[] = plan.blocks.flatMap((block) => [...block.ops]);
  const fresh = frame.num.slice();
  const places = Int32Array.from(asks, (block) => block.answer);
  for (const block of asks) if (block.cannotTell >= 0) fresh[block.cannotTell] = 0;
  return (values) => {
    frame.num.set(fresh);
    frame.work = 0;
    for (let i = 0; i < places.length; i++) frame.num[places[i]!] = values[i]!;
    run(ops, frame);
    return frame;
  };
}

export const asksOf = (plan: Plan): readonly Block[] => plan.checked.entries.flatMap((entry) => (entry.statement.body.keyword === "ask" ? [plan.byId.get(entry.id)!] : []));

const nameOf = (block: Block): string => block.entry.statement.name?.text ?? "";

function readAnswers(plan: Plan, answers: Answers): ReadonlyMap<string, Given> {
  const given = new Map<string, Given>();
  for (const [name, typed] of Object.entries(answers)) {
    if (typeof typed !== "string") continue;
    const at = plan.checked.byName.get(name);
    const entry = at === undefined ? undefined : plan.checked.entries[at];
    if (entry === undefined || entry.statement.body.keyword !== "ask") {
      given.set(name, { is: "unusable", code: "answer/not-asked", says: `The book does not ask for “${name.slice(0, 60)}”.` });
      continue;
    }
    const read = readAnswer(name, entry.checked, typed);
    if (read !== undefined) given.set(name, read);
  }
  return given;
}

/** Sets an ask's places; says whether anything changed. */
function putAnswer(frame: Frame, block: Block, given: Given | undefined): boolean {
  const value = given?.is === "value" ? given.value : Number.NaN;
  const state = given?.is === "unusable" ? IMPOSSIBLE : UNKNOWN;
  const tell = given?.is === "cannot-tell" ? 1 : 0;
  if (block.answer < 0) return false;
  const { answer, cannotTell } = block;
  const differs = !Object.is(frame.num[answer], value) || (value !== value && frame.state[answer] !== state) || (cannotTell >= 0 && frame.num[cannotTell] !== tell)
    || (given?.is === "unusable" && frame.reasons.get(answer) !== given.says);
  frame.num[answer] = value;
  frame.state[answer] = state;
  frame.cause[answer] = answer;
  if (given?.is === "unusable") frame.reasons.set(answer, given.says);
  if (cannotTell >= 0) frame.num[cannotTell] = tell;
  return differs;
}

function again(plan: Plan, before: Worked, given: ReadonlyMap<string, Given>): Frame {
  const frame = grown(copied(before.frame), plan);
  frame.work = 0;
  const changed = new Uint8Array(frame.num.length);
  for (const block of plan.blocks) {
    const old = before.plan.byId.get(block.id);
    const isNew = old === undefined || (old !== block && (old.ops !== block.ops || old.constants !== block.constants || old.nothing !== block.nothing));
    if (isNew) seed(frame, block);
    const answered = block.answer >= 0 && putAnswer(frame, block, given.get(nameOf(block)));
    if (answered) changed[block.answer] = 1;
    let stale = isNew || answered;
    for (let i = 0; !stale && i < block.inputs.length; i++) stale = changed[block.inputs[i]!] === 1;
    if (!stale) continue;
    const saved = Array.from(block.outputs, (place) => [frame.num[place]!, frame.state[place]!, frame.reasons.get(frame.cause[place]!)] as const);
    run(block.ops, frame);
    // Lists and kept rows hold more than one number, and a new block may hold a constant: no early end there.
    if (block.slot >= 0) for (const place of block.writes) changed[place] = 1;
    block.outputs.forEach((place, i) => {
      const [num, state, reason] = saved[i]!;
      const now = frame.num[place]!;
      if (isNew || !Object.is(num, now) || (now !== now && (state !== frame.state[place] || reason !== frame.reasons.get(frame.cause[place]!)))) changed[place] = 1;
    });
    // Text values are numbers of templates, so a text block that is new has changed by being new.
  }
  // A statement that is gone leaves nothing behind for others to read: its name is unknown to the checker.
  return frame;
}
