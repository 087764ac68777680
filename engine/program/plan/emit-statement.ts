// One statement to its block: its rule, its conditions, its times and its texts.
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
export const keyOf = (_entry: Entry, checked: CheckedBook, i: number, operations: number): string =>
  `${checked.looped.has(i) ? "loop" : ""}${operations > MAX_OPERATIONS ? "full" : ""}${ownsName(checked, i) ? "" : "twin"}`;

/** The block of one statement; without a value where the book's operations leave no room for it. */
export function emitStatement(
  entry: Entry,
  checked: CheckedBook,
  i: number,
  registers: Registers,
  operations: number,
): Block {
  const key = keyOf(entry, checked, i, operations);
  const name = entry.statement.name?.text;
  const emitter = newEmitter(registers, operations);
  try {
    return finish(emitter, entry, key, compileInto(emitter, entry, checked, i));
  } catch (error) {
    if (!(error instanceof PlanFull)) throw error;
    const empty = siblingEmitter(emitter);
    const register = name === undefined ? registers.next++ : registerOf(registers, name);
    empty.nothing.push({ register: register, reason: { code: "formulas-too-large" } });
    return finish(empty, entry, key, { outputs: [register] });
  }
}

function finish(emitter: Emitter, entry: Entry, key: string, parts: Parts): Block {
  const wording = siblingEmitter(emitter);
  const texts = {
    ...(entry.texts.title ? { title: template(wording, entry.texts.title) } : {}),
    ...(entry.texts.because ? { because: template(wording, entry.texts.because) } : {}),
    ...(entry.texts.takeBecause ? { takeBecause: template(wording, entry.texts.takeBecause) } : {}),
  };
  const isPlain = wording.ops.length === 0 && wording.constants.size === 0 && wording.nothing.length === 0;
  return {
    ...blockOf(emitter, entry, key, parts),
    texts,
    ...(isPlain ? {} : { worded: blockOf(wording, apartFrom(`texts of ${entry.id}`), key, {}) }),
  };
}

function compileInto(emitter: Emitter, entry: Entry, checked: CheckedBook, i: number): Parts {
  const { statement, checked: own } = entry;
  const name = statement.name?.text;
  const { registers } = emitter;
  // A second statement of the same name, or a loop, has its finding; it must not write another's place.
  const mine = (column?: number) => {
    if (name === undefined || !ownsName(checked, i)) return registers.next++;
    return registerOf(registers, column === undefined ? name : columnName(name, column));
  };
  const into = (rule: Rule, register: number): number => {
    if (checked.looped.has(i)) {
      emitter.nothing.push({ register: register, reason: { code: "loop" } });
      return register;
    }
    const from = emitExpression(emitter, rule);
    emitCopy(emitter, register, from, rule.at);
    return register;
  };
  const value = (register: number, of: { type: Value["type"]; unit: Value["unit"] }): Value => ({
    register: register,
    type: of.type,
    unit: of.unit,
  });

  switch (statement.body.keyword) {
    case "ask": {
      const place = mine();
      const values = own.signature ? [value(place, own.signature)] : [];
      if (own.ask?.take === undefined || checked.looped.has(i))
        return { outputs: [place], answer: place, values };
      // "Cannot tell" is an answer of its own: then what the book takes stands in for the measurement.
      const answer = registerOf(registers, `${name}?`);
      const cannotTell = registerOf(registers, `${name}??`);
      const take = emitExpression(emitter, own.ask.take);
      pushOperation(emitter, {
        opcode: Opcode.select,
        out: place,
        in0: readRegister(emitter, cannotTell),
        in1: take,
        in2: readRegister(emitter, answer),
        payload: undefined,
        at: own.ask.take.at,
      });
      return { outputs: [place], answer, cannotTell, values };
    }
    case "dial":
    case "figure": {
      const place = mine();
      if (own.rule !== undefined) into(own.rule, place);
      else emitter.nothing.push({ register: place, reason: { code: "finding" } });
      return { outputs: [place], values: own.signature ? [value(place, { ...own.signature })] : [] };
    }
    case "chart":
      return emitChart(emitter, entry, mine, checked.looped.has(i), ownsName(checked, i));
    case "list": {
      // A second list of one name has its finding; the rows under the name are the first one's.
      if (!ownsName(checked, i)) return { slot: slotOf(registers, entry.id) };
      const slot = slotOf(registers, name ?? "");
      if (own.list !== undefined && !checked.looped.has(i))
        emitList(emitter, own.list, name!, slot, statement.ruleAt ?? { start: 0, end: 4 });
      return { slot };
    }
    case "step":
    case "caution":
    case "stop": {
      const place = ownsName(checked, i) ? registerOf(registers, entry.id) : registers.next++;
      const conditions: number[] = [];
      if (checked.looped.has(i) && statement.needs.some((one) => one === "steps" || one === "stopped")) {
        emitter.nothing.push({ register: place, reason: { code: "loop" } });
        return { outputs: [place], when: place };
      }
      if (own.when !== undefined) conditions.push(emitExpression(emitter, own.when));
      if (own.withSteps !== undefined) {
        const steps = own.withSteps.flatMap((step) =>
          checked.byName.has(`step ${step}`)
            ? [readRegister(emitter, registerOf(registers, `step ${step}`))]
            : [],
        );
        conditions.push(
          steps.reduce(
            (a, b) => emit(emitter, Opcode.or, a, b, statement.ruleAt ?? { start: 0, end: 0 }),
            constant(emitter, 0),
          ),
        );
      }
      const all =
        conditions.length === 0
          ? constant(emitter, 1)
          : conditions.reduce((a, b) =>
              emit(emitter, Opcode.and, a, b, statement.clauses.when?.at ?? { start: 0, end: 0 }),
            );
      emitCopy(emitter, place, all, statement.clauses.when?.at ?? { start: 0, end: 0 });
      const takes = own.takes && emitExpression(emitter, own.takes);
      const waits = own.waits && emitExpression(emitter, own.waits);
      // Its times are handed on like a value: a sum over the steps reads them.
      return {
        outputs: [
          place,
          ...[takes, waits].flatMap((time) =>
            time !== undefined && emitter.writes.includes(time) ? [time] : [],
          ),
        ],
        when: place,
        ...(takes !== undefined ? { takes } : {}),
        ...(waits !== undefined ? { waits } : {}),
      };
    }
    case "promise": {
      const place = registerOf(registers, entry.id);
      if (own.rule === undefined) return {};
      const rule = emitExpression(emitter, own.rule);
      const whole =
        own.when === undefined
          ? rule
          : emit(
              emitter,
              Opcode.or,
              emit(emitter, Opcode.not, emitExpression(emitter, own.when), -1, own.when.at),
              rule,
              own.rule.at,
            );
      emitCopy(emitter, place, whole, own.rule.at);
      return { outputs: [place], when: place };
    }
    case "picture":
      return {
        pictures: (own.picture ?? []).map(({ name: argument, rule }) =>
          pictured(emitter, argument, rule, statement.text),
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
    case "unreadable": {
      if (entry.from?.withholds !== undefined) {
        const place = registerOf(registers, entry.id);
        emitter.nothing.push({ register: place, reason: entry.from.withholds });
        return { outputs: [place], when: place };
      }
      if (statement.body.keyword === "unreadable" && isLine(statementKind(entry))) {
        const register = registerOf(registers, entry.id);
        const known = isLine(statement.body.meant);
        emitter.nothing.push({
          register: register,
          reason: known
            ? { code: "line-unreadable", keyword: statement.body.meant }
            : { code: "unknown-line-unreadable", word: statement.body.meant.slice(0, 20) },
        });
        return { outputs: [register], when: register };
      }
      if (statement.body.keyword === "unreadable" && name !== undefined && statement.body.meant !== "formula")
        emitter.nothing.push({ register: mine(), reason: { code: "unreadable" } });
      return {};
    }
  }
}

function pictured(emitter: Emitter, argument: string, rule: Rule, text: string): PictureArgument {
  const of =
    rule.does === "value" && rule.column === undefined ? rule.name : text.slice(rule.at.start, rule.at.end);
  const isList = rule.type.is === "list" && rule.does === "value";
  const register = isList
    ? readRegister(emitter, registerOf(emitter.registers, listName(rule.name)))
    : emitExpression(emitter, rule);
  return {
    name: argument,
    of,
    value: { register: register, type: rule.type, unit: rule.unit },
    slot: isList ? slotOf(emitter.registers, rule.name) : -1,
  };
}
