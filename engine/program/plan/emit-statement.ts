// One statement to its block: its rule, its conditions, its times and its texts.
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import type { Rule } from "../../language/check/rule.ts";
import { isLine } from "../../language/syntax/parse.ts";
import { type Parts, apartFrom, blockOf } from "./block.ts";
import { chartInto } from "./emit-chart.ts";
import { lay, template } from "./emit-expression.ts";
import { layList } from "./emit-list.ts";
import { Full, MOST_OPERATIONS, type Maker, besides, constant, copyInto, emit, newMaker, push, read } from "./emitter.ts";
import { isFirst, wordOf } from "./statement-kind.ts";
import { K } from "./op.ts";
import { columnName, listName, placeOf, slotOf } from "./registers.ts";
import type { Block, PictureArgument, Places, Value } from "./plan.ts";

/** What a block depends on besides its own checked statement. */
export const keyOf = (_entry: Entry, checked: CheckedBook, i: number, operations: number): string => `${checked.looped.has(i) ? "loop" : ""}${operations > MOST_OPERATIONS ? "full" : ""}${isFirst(checked, i) ? "" : "twin"}`;

/** The block of one statement; without a value where the book's operations leave no room for it. */
export function compileEntry(entry: Entry, checked: CheckedBook, i: number, places: Places, operations: number): Block {
  const key = keyOf(entry, checked, i, operations);
  const name = entry.statement.name?.text;
  const maker = newMaker(places, operations);
  try {
    return finish(maker, entry, key, compileInto(maker, entry, checked, i));
  } catch (error) {
    if (!(error instanceof Full)) throw error;
    const empty = besides(maker);
    const place = name === undefined ? places.next++ : placeOf(places, name);
    empty.nothing.push({ place, reason: "the book's formulas grow beyond what is worked" });
    return finish(empty, entry, key, { outputs: [place] });
  }
}

function finish(maker: Maker, entry: Entry, key: string, parts: Parts): Block {
  const wording = besides(maker);
  const texts = {
    ...(entry.texts.title ? { title: template(wording, entry.texts.title) } : {}),
    ...(entry.texts.because ? { because: template(wording, entry.texts.because) } : {}),
    ...(entry.texts.takeBecause ? { takeBecause: template(wording, entry.texts.takeBecause) } : {}),
  };
  const isPlain = wording.ops.length === 0 && wording.constants.size === 0 && wording.nothing.length === 0;
  return {
    ...blockOf(maker, entry, key, parts), texts,
    ...(isPlain ? {} : { worded: blockOf(wording, apartFrom(`texts of ${entry.id}`), key, {}) }),
  };
}

function compileInto(maker: Maker, entry: Entry, checked: CheckedBook, i: number): Parts {
  const { statement, checked: own } = entry;
  const name = statement.name?.text;
  const { places } = maker;
  // A second statement of the same name, or a loop, has its finding; it must not write another's place.
  const mine = (column?: number) => {
    if (name === undefined || !isFirst(checked, i)) return places.next++;
    return placeOf(places, column === undefined ? name : columnName(name, column));
  };
  const into = (rule: Rule, place: number): number => {
    if (checked.looped.has(i)) { maker.nothing.push({ place, reason: "it is part of a loop" }); return place; }
    const from = lay(maker, rule);
    copyInto(maker, place, from, rule.at);
    return place;
  };
  const value = (place: number, of: { type: Value["type"]; unit: Value["unit"] }): Value => ({ place, type: of.type, unit: of.unit });

  switch (statement.body.keyword) {
    case "ask": {
      const place = mine();
      const values = own.signature ? [value(place, own.signature)] : [];
      if (own.ask?.take === undefined || checked.looped.has(i)) return { outputs: [place], answer: place, values };
      // "Cannot tell" is an answer of its own: then what the book takes stands in for the measurement.
      const answer = placeOf(places, `${name}?`);
      const cannotTell = placeOf(places, `${name}??`);
      const take = lay(maker, own.ask.take);
      push(maker, { k: K.select, d: place, a: read(maker, cannotTell), b: take, c: read(maker, answer), x: undefined, at: own.ask.take.at });
      return { outputs: [place], answer, cannotTell, values };
    }
    case "dial": case "figure": {
      const place = mine();
      if (own.rule !== undefined) into(own.rule, place);
      else maker.nothing.push({ place, reason: "it has a finding" });
      return { outputs: [place], values: own.signature ? [value(place, { ...own.signature })] : [] };
    }
    case "chart": return chartInto(maker, entry, mine, checked.looped.has(i), isFirst(checked, i));
    case "list": {
      // A second list of one name has its finding; the rows under the name are the first one's.
      if (!isFirst(checked, i)) return { slot: slotOf(places, entry.id) };
      const slot = slotOf(places, name ?? "");
      if (own.list !== undefined && !checked.looped.has(i)) layList(maker, own.list, name!, slot, statement.ruleAt ?? { start: 0, end: 4 });
      return { slot };
    }
    case "step": case "caution": case "stop": {
      const place = isFirst(checked, i) ? placeOf(places, entry.id) : places.next++;
      const conditions: number[] = [];
      if (checked.looped.has(i) && statement.needs.some((one) => one === "steps" || one === "stopped")) {
        maker.nothing.push({ place, reason: "it is part of a loop" });
        return { outputs: [place], when: place };
      }
      if (own.when !== undefined) conditions.push(lay(maker, own.when));
      if (own.withSteps !== undefined) {
        const steps = own.withSteps.flatMap((step) => (checked.byName.has(`step ${step}`) ? [read(maker, placeOf(places, `step ${step}`))] : []));
        conditions.push(steps.reduce((a, b) => emit(maker, K.or, a, b, statement.ruleAt ?? { start: 0, end: 0 }), constant(maker, 0)));
      }
      const all = conditions.length === 0 ? constant(maker, 1) : conditions.reduce((a, b) => emit(maker, K.and, a, b, statement.clauses.when?.at ?? { start: 0, end: 0 }));
      copyInto(maker, place, all, statement.clauses.when?.at ?? { start: 0, end: 0 });
      const takes = own.takes && lay(maker, own.takes);
      const waits = own.waits && lay(maker, own.waits);
      // Its times are handed on like a value: a sum over the steps reads them.
      return { outputs: [place, ...[takes, waits].flatMap((time) => (time !== undefined && maker.writes.includes(time) ? [time] : []))], when: place, ...(takes !== undefined ? { takes } : {}), ...(waits !== undefined ? { waits } : {}) };
    }
    case "promise": {
      const place = placeOf(places, entry.id);
      if (own.rule === undefined) return {};
      const rule = lay(maker, own.rule);
      const whole = own.when === undefined ? rule : emit(maker, K.or, emit(maker, K.not, lay(maker, own.when), -1, own.when.at), rule, own.rule.at);
      copyInto(maker, place, whole, own.rule.at);
      return { outputs: [place], when: place };
    }
    case "picture": return {
      pictures: (own.picture ?? []).map(({ name: argument, rule }) => pictured(maker, argument, rule, statement.text)),
      ...(own.when ? { when: lay(maker, own.when) } : {}),
    };
    case "book": case "part": case "use": case "drop": case "add": case "kind": case "formula": case "worked": case "unreadable": {
      if (entry.from?.withholds !== undefined) {
        const place = placeOf(places, entry.id);
        maker.nothing.push({ place, reason: entry.from.withholds });
        return { outputs: [place], when: place };
      }
      if (statement.body.keyword === "unreadable" && isLine(wordOf(entry))) {
        const place = placeOf(places, entry.id);
        const known = isLine(statement.body.meant);
        maker.nothing.push({ place, reason: known ? `a ${statement.body.meant} of the book cannot be read` : `a line of the book that begins with “${statement.body.meant.slice(0, 20)}” cannot be read` });
        return { outputs: [place], when: place };
      }
      if (statement.body.keyword === "unreadable" && name !== undefined && statement.body.meant !== "formula") maker.nothing.push({ place: mine(), reason: "it cannot be read" });
      return {};
    }
  }
}

function pictured(maker: Maker, argument: string, rule: Rule, text: string): PictureArgument {
  const of = rule.does === "value" && rule.column === undefined ? rule.name : text.slice(rule.at.start, rule.at.end);
  const isList = rule.type.is === "list" && rule.does === "value";
  const place = isList ? read(maker, placeOf(maker.places, listName(rule.name))) : lay(maker, rule);
  return { name: argument, of, value: { place, type: rule.type, unit: rule.unit }, slot: isList ? slotOf(maker.places, rule.name) : -1 };
}
