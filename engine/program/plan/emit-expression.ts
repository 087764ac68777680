// Emits an expression: its operations in the order in which its operands are needed, and formulas where they
// are called.
import type { Rule, TextRule } from "../../language/check/rule.ts";
import { emitChartRows } from "./emit-chart-rows.ts";
import { type Emitter, NONE, constant, emit, emitCall, pushOperation, readRegister } from "./emitter.ts";
import { Opcode } from "./op.ts";
import { STOPPED_NAME, columnName, listName, registerOf, slotOf, stepsName } from "./registers.ts";
import type { Template } from "./plan.ts";

/** Emits a rule's operations and returns the register of its value. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one flat switch over all operations.
export function emitExpression(emitter: Emitter, rule: Rule): number {
  const at = emitter.within ?? rule.at;
  switch (rule.does) {
    case "constant":
      return constant(emitter, rule.value);
    case "none": {
      const register = emitter.registers.next++;
      emitter.nothing.push({ register, reason: rule.reason });
      return register;
    }
    case "text": {
      const text = template(emitter, rule.text);
      emitter.registers.templates.push(text);
      // A text with a value in it that cannot be shown is no text to work by.
      return text.pieces.reduce(
        (register, piece) =>
          typeof piece === "string" ? register : emit(emitter, Opcode.copy, register, piece.register, at),
        constant(emitter, emitter.registers.templates.length - 1),
      );
    }
    case "value":
      return (
        (rule.column === undefined ? emitter.standIns.get(rule.name) : undefined) ??
        readRegister(
          emitter,
          registerOf(
            emitter.registers,
            rule.column === undefined ? rule.name : columnName(rule.name, rule.column),
          ),
        )
      );
    case "local":
      return emitter.locals.get(rule.name) ?? constant(emitter, Number.NaN);
    case "arithmetic":
      return emit(
        emitter,
        ARITHMETIC[rule.op],
        emitExpression(emitter, rule.left),
        emitExpression(emitter, rule.right),
        at,
      );
    case "negate":
      return emit(emitter, Opcode.neg, emitExpression(emitter, rule.of), -1, at);
    case "function": {
      const a = emitExpression(emitter, rule.of);
      const d = emitter.registers.next++;
      pushOperation(emitter, { opcode: Opcode.fn, out: d, in0: a, in1: -1, in2: -1, payload: rule.name, at });
      return d;
    }
    case "most":
      return rule.of
        .map((one) => emitExpression(emitter, one))
        .reduce((a, b) => emit(emitter, rule.pick === "largest" ? Opcode.max : Opcode.min, a, b, at));
    case "round": {
      const a = emitExpression(emitter, rule.of);
      const b = emitExpression(emitter, rule.step);
      const d = emitter.registers.next++;
      pushOperation(emitter, {
        opcode: Opcode.round,
        out: d,
        in0: a,
        in1: b,
        in2: -1,
        payload: { way: rule.way, base: rule.base },
        at,
      });
      return d;
    }
    case "compare":
      return emit(
        emitter,
        COMPARE[rule.op],
        emitExpression(emitter, rule.left),
        emitExpression(emitter, rule.right),
        at,
      );
    case "and":
    case "or":
      return emit(
        emitter,
        rule.does === "and" ? Opcode.and : Opcode.or,
        emitExpression(emitter, rule.left),
        emitExpression(emitter, rule.right),
        at,
      );
    case "not":
      return emit(emitter, Opcode.not, emitExpression(emitter, rule.of), -1, at);
    case "band": {
      const a = emitExpression(emitter, rule.of);
      const b = rule.low ? emitExpression(emitter, rule.low) : -1;
      const c = rule.high ? emitExpression(emitter, rule.high) : -1;
      const d = emitter.registers.next++;
      pushOperation(emitter, {
        opcode: Opcode.band,
        out: d,
        in0: a,
        in1: b,
        in2: c,
        payload: { lowIn: rule.lowIn, highIn: rule.highIn },
        at,
      });
      return d;
    }
    case "words": {
      const a = emitExpression(emitter, rule.of);
      const d = emitter.registers.next++;
      const count = rule.of.type.is === "kind" ? rule.of.type.words.length : 2;
      const words = new Uint8Array(count);
      for (const word of rule.words) words[word] = 1;
      pushOperation(emitter, {
        opcode: Opcode.words,
        out: d,
        in0: a,
        in1: -1,
        in2: -1,
        payload: { words },
        at,
      });
      return d;
    }
    case "known":
      return emit(emitter, Opcode.known, emitExpression(emitter, rule.of), -1, at);
    case "choose": {
      let otherwise = emitExpression(emitter, rule.otherwise);
      const cases = rule.cases.map(({ value, when }) => ({
        when: emitExpression(emitter, when),
        value: emitExpression(emitter, value),
        at: emitter.within ?? value.at,
      }));
      for (const one of cases.reverse()) {
        const d = emitter.registers.next++;
        pushOperation(emitter, {
          opcode: Opcode.select,
          out: d,
          in0: one.when,
          in1: one.value,
          in2: otherwise,
          payload: undefined,
          at: one.at,
        });
        otherwise = d;
      }
      return otherwise;
    }
    case "gather": {
      const d = emitter.registers.next++;
      emitter.inputs.add(registerOf(emitter.registers, listName(rule.list)));
      pushOperation(emitter, {
        opcode: Opcode.aggregate,
        out: d,
        in0: slotOf(emitter.registers, rule.list),
        in1: registerOf(emitter.registers, listName(rule.list)),
        in2: -1,
        payload: { what: rule.what, column: rule.column },
        at,
      });
      return d;
    }
    case "left-count":
    case "left-first": {
      const d = emitter.registers.next++;
      const candidates = readRegister(emitter, registerOf(emitter.registers, rule.chart));
      pushOperation(emitter, {
        opcode: rule.does === "left-count" ? Opcode.candidateCount : Opcode.firstCandidate,
        out: d,
        in0: slotOf(emitter.registers, rule.chart),
        in1: candidates,
        in2: -1,
        payload: undefined,
        at,
      });
      return d;
    }
    case "left-among": {
      const of = emitExpression(emitter, rule.of);
      const d = emitter.registers.next++;
      const candidates = readRegister(emitter, registerOf(emitter.registers, rule.chart));
      pushOperation(emitter, {
        opcode: Opcode.candidatesAmong,
        out: d,
        in0: slotOf(emitter.registers, rule.chart),
        in1: candidates,
        in2: of,
        payload: undefined,
        at,
      });
      return d;
    }
    case "call": {
      const args = rule.args.map((arg) => emitExpression(emitter, arg));
      return emitCall(emitter, at, new Map(rule.parameters.map((name, i) => [name, args[i]!])), NONE, () =>
        emitExpression(emitter, rule.body),
      );
    }
    case "read-chart": {
      const { table } = rule;
      const args = rule.args.map((arg) => emitExpression(emitter, arg));
      const given = new Map(table.conditions.map((condition, i) => [condition.name, args[i]!]));
      const register = emitter.registers.next++;
      return emitCall(emitter, at, given, given, () => {
        emitChartRows(emitter, emitExpression, {
          name: rule.chart,
          chart: table,
          conditions: args,
          outputs: [{ column: rule.column, register }],
          at,
        });
        return register;
      });
    }
    case "stopped":
      return readRegister(emitter, registerOf(emitter.registers, STOPPED_NAME));
    case "of-steps":
      return readRegister(emitter, registerOf(emitter.registers, stepsName(rule.what)));
  }
}

const ARITHMETIC = {
  "+": Opcode.add,
  "-": Opcode.sub,
  "*": Opcode.mul,
  "/": Opcode.div,
  "^": Opcode.pow,
} as const;
const COMPARE = { "<": Opcode.lt, "<=": Opcode.le, is: Opcode.eq, "is not": Opcode.ne } as const;

/** A text with the registers of its values. */
export function template(emitter: Emitter, text: TextRule): Template {
  return {
    pieces: text.pieces.map((piece) => {
      if (typeof piece === "string") return piece;
      if (piece.rule.type.is === "list" || piece.rule.type.is === "kept" || piece.rule.type.is === "row")
        return "…";
      return {
        register: emitExpression(emitter, piece.rule),
        type: piece.rule.type,
        unit: piece.unit ?? piece.rule.unit,
        ...(piece.name ? { name: piece.name } : {}),
      };
    }),
  };
}
