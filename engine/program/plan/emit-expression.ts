// Lays an expression: its operations in the order in which its parts are needed, and formulas where they are called.
import type { Rule, TextRule } from "../../language/check/rule.ts";
import { layRows } from "./emit-chart-rows.ts";
import { type Maker, NONE, constant, emit, inside, push, read } from "./emitter.ts";
import { K } from "./op.ts";
import { STOPPED_NAME, columnName, listName, placeOf, slotOf, stepsName } from "./registers.ts";
import type { Template } from "./plan.ts";

/** Lays a rule's operations and gives the place of its value. */
export function lay(maker: Maker, rule: Rule): number {
  const at = maker.within ?? rule.at;
  switch (rule.does) {
    case "constant": return constant(maker, rule.value);
    case "none": {
      const place = maker.places.next++;
      maker.nothing.push({ place, reason: rule.reason });
      return place;
    }
    case "text": {
      maker.places.templates.push(template(maker, rule.text));
      return constant(maker, maker.places.templates.length - 1);
    }
    case "value": return (rule.column === undefined ? maker.standIns.get(rule.name) : undefined) ?? read(maker, placeOf(maker.places, rule.column === undefined ? rule.name : columnName(rule.name, rule.column)));
    case "local": return maker.locals.get(rule.name) ?? constant(maker, Number.NaN);
    case "arithmetic": return emit(maker, ARITHMETIC[rule.op], lay(maker, rule.left), lay(maker, rule.right), at);
    case "negate": return emit(maker, K.neg, lay(maker, rule.of), -1, at);
    case "function": {
      const a = lay(maker, rule.of);
      const d = maker.places.next++;
      push(maker, { k: K.fn, d, a, b: -1, c: -1, x: rule.name, at });
      return d;
    }
    case "most": return rule.of.map((one) => lay(maker, one)).reduce((a, b) => emit(maker, rule.pick === "largest" ? K.max : K.min, a, b, at));
    case "round": {
      const a = lay(maker, rule.of);
      const b = lay(maker, rule.step);
      const d = maker.places.next++;
      push(maker, { k: K.round, d, a, b, c: -1, x: { way: rule.way, base: rule.base }, at });
      return d;
    }
    case "compare": return emit(maker, COMPARE[rule.op], lay(maker, rule.left), lay(maker, rule.right), at);
    case "and": case "or": return emit(maker, rule.does === "and" ? K.and : K.or, lay(maker, rule.left), lay(maker, rule.right), at);
    case "not": return emit(maker, K.not, lay(maker, rule.of), -1, at);
    case "band": {
      const a = lay(maker, rule.of);
      const b = rule.low ? lay(maker, rule.low) : -1;
      const c = rule.high ? lay(maker, rule.high) : -1;
      const d = maker.places.next++;
      push(maker, { k: K.band, d, a, b, c, x: { lowIn: rule.lowIn, highIn: rule.highIn }, at });
      return d;
    }
    case "words": {
      const a = lay(maker, rule.of);
      const d = maker.places.next++;
      const count = rule.of.type.is === "kind" ? rule.of.type.words.length : 2;
      const words = new Uint8Array(count);
      for (const word of rule.words) words[word] = 1;
      push(maker, { k: K.words, d, a, b: -1, c: -1, x: { words }, at });
      return d;
    }
    case "known": return emit(maker, K.known, lay(maker, rule.of), -1, at);
    case "choose": {
      let otherwise = lay(maker, rule.otherwise);
      const cases = rule.cases.map(({ value, when }) => ({ when: lay(maker, when), value: lay(maker, value), at: maker.within ?? value.at }));
      for (const one of cases.reverse()) {
        const d = maker.places.next++;
        push(maker, { k: K.select, d, a: one.when, b: one.value, c: otherwise, x: undefined, at: one.at });
        otherwise = d;
      }
      return otherwise;
    }
    case "gather": {
      const d = maker.places.next++;
      maker.inputs.add(placeOf(maker.places, listName(rule.list)));
      push(maker, { k: K.gather, d, a: slotOf(maker.places, rule.list), b: placeOf(maker.places, listName(rule.list)), c: -1, x: { what: rule.what, column: rule.column }, at });
      return d;
    }
    case "left-count": case "left-first": {
      const d = maker.places.next++;
      const kept = read(maker, placeOf(maker.places, rule.chart));
      push(maker, { k: rule.does === "left-count" ? K.leftCount : K.leftFirst, d, a: slotOf(maker.places, rule.chart), b: kept, c: -1, x: undefined, at });
      return d;
    }
    case "left-among": {
      const of = lay(maker, rule.of);
      const d = maker.places.next++;
      const kept = read(maker, placeOf(maker.places, rule.chart));
      push(maker, { k: K.leftAmong, d, a: slotOf(maker.places, rule.chart), b: kept, c: of, x: undefined, at });
      return d;
    }
    case "call": {
      const args = rule.args.map((arg) => lay(maker, arg));
      return inside(maker, at, new Map(rule.parameters.map((name, i) => [name, args[i]!])), NONE, () => lay(maker, rule.body));
    }
    case "read-chart": {
      const { table } = rule;
      const args = rule.args.map((arg) => lay(maker, arg));
      const given = new Map(table.conditions.map((condition, i) => [condition.name, args[i]!]));
      const place = maker.places.next++;
      return inside(maker, at, given, given, () => {
        layRows(maker, lay, rule.chart, table, args, [{ column: rule.column, place }], at);
        return place;
      });
    }
    case "stopped": return read(maker, placeOf(maker.places, STOPPED_NAME));
    case "of-steps": return read(maker, placeOf(maker.places, stepsName(rule.what)));
  }
}

const ARITHMETIC = { "+": K.add, "-": K.sub, "*": K.mul, "/": K.div, "^": K.pow } as const;
const COMPARE = { "<": K.lt, "<=": K.le, is: K.eq, "is not": K.ne } as const;

/** A text with its values laid as places. */
export function template(maker: Maker, text: TextRule): Template {
  return {
    pieces: text.pieces.map((piece) => {
      if (typeof piece === "string") return piece;
      if (piece.rule.type.is === "list" || piece.rule.type.is === "kept" || piece.rule.type.is === "row") return "…";
      return { place: lay(maker, piece.rule), type: piece.rule.type, unit: piece.unit ?? piece.rule.unit, ...(piece.name ? { name: piece.name } : {}) };
    }),
  };
}
