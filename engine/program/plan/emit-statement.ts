// Emits one statement as its block: its rule, its conditions, its times and its texts.
import { writeValue } from "../../../core/format.ts";
import { atMost } from "../../../core/number.ts";
import type { Reason } from "../../../core/reason.ts";
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import type { Rule } from "../../language/check/rule.ts";
import { isLine } from "../../language/syntax/statement-words.ts";
import { type Parts, apartFrom, blockOf } from "./block.ts";
import { emitChart } from "./emit-chart.ts";
import { emitExpression, template } from "./emit-expression.ts";
import { emitList } from "./emit-list.ts";
import {
  PlanFull,
  MAX_OPERATIONS,
  type Emitter,
  siblingEmitter,
  constant,
  emitCopy,
  emit,
  newEmitter,
  pushOperation,
  readRegister,
} from "./emitter.ts";
import { ownsName, statementKind } from "./statement-kind.ts";
import { Opcode } from "./op.ts";
import { columnName, listName, registerOf, slotOf } from "./registers.ts";
import type { Block, PictureArgument, Registers, Value } from "./plan.ts";

/** What a block depends on besides its own checked statement. */
export const keyOf = (checked: CheckedBook, i: number, operations: number): string =>
  [
    checked.looped.has(i) ? "loop" : "",
    operations > MAX_OPERATIONS ? "full" : "",
    ownsName(checked, i) ? "" : "twin",
  ].join("");

/** The block of one statement; without a value where the book's operations leave no room for it. */
export function emitStatement(
  entry: Entry,
  checked: CheckedBook,
  i: number,
  registers: Registers,
  operations: number,
): Block {
  const key = keyOf(checked, i, operations);
  const name = entry.statement.name?.text;
  const emitter = newEmitter(registers, operations);
  try {
    return finish(emitter, entry, key, compileInto(emitter, entry, checked, i));
  } catch (error) {
    if (!(error instanceof PlanFull)) throw error;
    const empty = siblingEmitter(emitter);
    const register = name === undefined ? registers.next++ : registerOf(registers, name);
    empty.nothing.push({ register, reason: { code: "formulas-too-large" } });
    return finish(empty, entry, key, { outputs: [register] });
  }
}

function finish(emitter: Emitter, entry: Entry, key: string, parts: Parts): Block {
  const wording = siblingEmitter(emitter);
  const texts = {
    ...(entry.texts.title ? { title: template(wording, entry.texts.title) } : {}),
    ...(entry.texts.because ? { because: template(wording, entry.texts.because) } : {}),
    ...(entry.texts.then ? { then: template(wording, entry.texts.then) } : {}),
    ...(entry.texts.takeBecause ? { takeBecause: template(wording, entry.texts.takeBecause) } : {}),
    ...(entry.texts.blankBecause ? { blankBecause: template(wording, entry.texts.blankBecause) } : {}),
  };
  const isPlain = wording.ops.length === 0 && wording.constants.size === 0 && wording.nothing.length === 0;
  return {
    ...blockOf(emitter, entry, key, parts),
    texts,
    ...(isPlain ? {} : { worded: blockOf(wording, apartFrom(`texts of ${entry.id}`), key, {}) }),
  };
}

/** A statement that is being compiled, and where its value goes. */
interface Compiling {
  readonly emitter: Emitter;
  readonly entry: Entry;
  readonly checked: CheckedBook;
  readonly i: number;
  /** In a loop, which has its finding: it has no value. */
  readonly looped: boolean;
  /** False for a second statement of one name, which has its finding. */
  readonly owns: boolean;
  /** The register of its value, or of a value column; never one of the first statement of its name. */
  readonly mine: (column?: number) => number;
}

function compileInto(emitter: Emitter, entry: Entry, checked: CheckedBook, i: number): Parts {
  const { statement, checked: own } = entry;
  const name = statement.name?.text;
  const { registers } = emitter;
  const owns = ownsName(checked, i);
  const mine = (column?: number) =>
    name === undefined || !owns
      ? registers.next++
      : registerOf(registers, column === undefined ? name : columnName(name, column));
  const compiling: Compiling = { emitter, entry, checked, i, looped: checked.looped.has(i), owns, mine };

  switch (statement.body.keyword) {
    case "ask":
      return emitAsk(compiling);
    case "dial":
    case "figure":
      return emitValue(compiling);
    case "chart":
      return emitChart(emitter, entry, mine, compiling.looped, owns);
    case "list":
      return emitListStatement(compiling);
    case "step":
    case "caution":
    case "stop":
      return emitLine(compiling);
    case "promise":
      return emitPromise(compiling);
    case "picture":
      return {
        pictures: (own.picture ?? []).map(({ name: argument, rule }) =>
          emitPictureArgument(emitter, argument, rule, statement.text),
        ),
        ...(own.when ? { when: emitExpression(emitter, own.when) } : {}),
      };
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "kind":
    case "formula":
    case "worked":
    case "unreadable":
      return emitNothing(compiling);
  }
}

function emitAsk({ emitter, entry, looped, mine }: Compiling): Parts {
  const { registers } = emitter;
  const { ask, signature } = entry.checked;
  const register = mine();
  const values = signature ? [asValue(register, signature)] : [];
  const at = (ask?.take ?? ask?.blank)?.at;
  if (ask === undefined || at === undefined || looped)
    return { outputs: [register], answer: register, values };
  // "Cannot tell" is an answer of its own: then the value is what the book takes instead. What is not
  // answered is told by the answer alone, so that one which cannot be used counts as none.
  const name = entry.statement.name?.text;
  const answer = registerOf(registers, `${name}?`);
  const cannotTell = registerOf(registers, `${name}??`);
  const given = readRegister(emitter, answer);
  const take = ask.take && emitFallback(emitter, entry, ask.take);
  const blank =
    ask.blank === undefined
      ? undefined
      : ask.blank === ask.take
        ? take
        : emitFallback(emitter, entry, ask.blank);
  const select = (out: number, in0: number, in1: number, in2: number) =>
    pushOperation(emitter, { opcode: Opcode.select, out, in0, in1, in2, payload: undefined, at });
  let answered = given;
  if (blank !== undefined) {
    answered = registers.next++;
    select(answered, emit(emitter, Opcode.known, given, -1, at), given, blank);
  }
  select(register, readRegister(emitter, cannotTell), take ?? given, answered);
  return { outputs: [register], answer, cannotTell, values };
}

/** What an ask takes for "cannot tell": impossible where it lies outside the range of the ask. */
function emitFallback(emitter: Emitter, { statement, checked }: Entry, take: Rule): number {
  const { signature, ask } = checked;
  const { low, high } = ask!;
  const type = signature?.type;
  const fallback = emitExpression(emitter, take);
  if (type === undefined || type.is === "kind" || type.is === "yes-no" || !(low < high)) return fallback;
  if (take.does === "constant" && atMost(low, take.value) && atMost(take.value, high))
    return constant(emitter, Math.min(Math.max(take.value, low), high));
  const outside = emitter.registers.next++;
  emitter.nothing.push({
    register: outside,
    reason: {
      code: "fallback-range",
      ask: statement.name?.text ?? "",
      low: writeValue(low, type, signature?.unit),
      high: writeValue(high, type, signature?.unit),
    },
  });
  if (take.does === "constant") return outside;
  const [least, most] = [constant(emitter, low), constant(emitter, high)];
  const within = { in0: fallback, in1: least, in2: most, at: take.at };
  const isInside = emitter.registers.next++;
  pushOperation(emitter, {
    ...within,
    opcode: Opcode.band,
    out: isInside,
    payload: { lowIn: true, highIn: true },
  });
  // A value beyond an end by less than the tolerance of comparisons counts as that end.
  const raised = emit(emitter, Opcode.max, fallback, least, take.at);
  const clamped = emit(emitter, Opcode.min, raised, most, take.at);
  const register = emitter.registers.next++;
  pushOperation(emitter, {
    opcode: Opcode.select,
    out: register,
    in0: isInside,
    in1: clamped,
    in2: outside,
    payload: undefined,
    at: take.at,
  });
  return register;
}

/** A dial or a figure. */
function emitValue({ emitter, entry, looped, mine }: Compiling): Parts {
  const { rule, signature } = entry.checked;
  const register = mine();
  if (rule === undefined) emitter.nothing.push({ register, reason: { code: "finding" } });
  else if (looped) emitter.nothing.push({ register, reason: { code: "loop" } });
  else emitCopy(emitter, register, emitExpression(emitter, rule), rule.at);
  return { outputs: [register], values: signature ? [asValue(register, signature)] : [] };
}

const asValue = (register: number, { type, unit }: Pick<Value, "type" | "unit">): Value => ({
  register,
  type,
  unit,
});

function emitListStatement({ emitter, entry, looped, owns }: Compiling): Parts {
  const { statement, checked: own } = entry;
  // A second list of one name has its finding; the rows under the name are the first one's.
  if (!owns) return { slot: slotOf(emitter.registers, entry.id) };
  const name = statement.name?.text ?? "";
  const slot = slotOf(emitter.registers, name);
  // Written in any case: after an edit the register may hold the rows of the list as it was.
  const register = registerOf(emitter.registers, listName(name));
  if (looped) emitter.nothing.push({ register, reason: { code: "loop" } });
  else if (own.list === undefined) emitter.nothing.push({ register, reason: { code: "finding" } });
  else emitList(emitter, own.list, name, slot, statement.ruleAt ?? { start: 0, end: 4 });
  return { slot };
}

/** A step, caution or stop: whether it applies, and its times. */
function emitLine({ emitter, entry, checked, looped, owns }: Compiling): Parts {
  const { statement, checked: own } = entry;
  const { registers } = emitter;
  const register = owns ? registerOf(registers, entry.id) : registers.next++;
  if (looped && statement.needs.some((one) => one === "steps" || one === "stopped")) {
    emitter.nothing.push({ register, reason: { code: "loop" } });
    return { outputs: [register], when: register };
  }
  const conditions: number[] = [];
  if (own.when !== undefined) conditions.push(emitExpression(emitter, own.when));
  if (own.withSteps !== undefined) {
    const at = statement.ruleAt ?? { start: 0, end: 0 };
    const steps = own.withSteps.flatMap((step) =>
      checked.byName.has(`step ${step}`)
        ? [readRegister(emitter, registerOf(registers, `step ${step}`))]
        : [],
    );
    const any = steps.reduce((a, b) => emit(emitter, Opcode.or, a, b, at), constant(emitter, 0));
    conditions.push(any);
  }
  const at = statement.clauses.when?.at ?? { start: 0, end: 0 };
  const all =
    conditions.length === 0
      ? constant(emitter, 1)
      : conditions.reduce((a, b) => emit(emitter, Opcode.and, a, b, at));
  emitCopy(emitter, register, all, at);
  const takes = own.takes && emitExpression(emitter, own.takes);
  const waits = own.waits && emitExpression(emitter, own.waits);
  // Its times are outputs too: a sum over the steps reads them.
  const times = [takes, waits].filter((time) => time !== undefined && emitter.writes.includes(time));
  return {
    outputs: [register, ...times.map((time) => time!)],
    when: register,
    ...(takes !== undefined ? { takes } : {}),
    ...(waits !== undefined ? { waits } : {}),
  };
}

/** A promise under a condition is kept where the condition does not hold. */
function emitPromise({ emitter, entry }: Compiling): Parts {
  const { rule: promised, when } = entry.checked;
  const register = registerOf(emitter.registers, entry.id);
  if (promised === undefined) return {};
  const rule = emitExpression(emitter, promised);
  const unless = when && emit(emitter, Opcode.not, emitExpression(emitter, when), -1, when.at);
  const whole = unless === undefined ? rule : emit(emitter, Opcode.or, unless, rule, promised.at);
  emitCopy(emitter, register, whole, promised.at);
  return { outputs: [register], when: register };
}

/** A statement without a value; one that cannot be read, or whose base is missing, says why. */
function emitNothing({ emitter, entry, mine }: Compiling): Parts {
  const { statement } = entry;
  if (entry.from?.withholds !== undefined) return emitWithheld(emitter, entry, entry.from.withholds);
  if (statement.body.keyword !== "unreadable") return {};
  const { meant } = statement.body;
  if (isLine(statementKind(entry)))
    return emitWithheld(
      emitter,
      entry,
      isLine(meant)
        ? { code: "line-unreadable", keyword: meant }
        : { code: "unknown-line-unreadable", word: meant.slice(0, 20) },
    );
  if (statement.name !== undefined && meant !== "formula")
    emitter.nothing.push({ register: mine(), reason: { code: "unreadable" } });
  return {};
}

/** A line whose condition can have no value: nothing is released past it. */
function emitWithheld(emitter: Emitter, entry: Entry, reason: Reason): Parts {
  const register = registerOf(emitter.registers, entry.id);
  emitter.nothing.push({ register, reason });
  return { outputs: [register], when: register };
}

function emitPictureArgument(emitter: Emitter, argument: string, rule: Rule, text: string): PictureArgument {
  const of =
    rule.does === "value" && rule.column === undefined ? rule.name : text.slice(rule.at.start, rule.at.end);
  const isList = rule.type.is === "list" && rule.does === "value";
  const register = isList
    ? readRegister(emitter, registerOf(emitter.registers, listName(rule.name)))
    : emitExpression(emitter, rule);
  return {
    name: argument,
    of,
    value: { register, type: rule.type, unit: rule.unit },
    slot: isList ? slotOf(emitter.registers, rule.name) : -1,
  };
}
