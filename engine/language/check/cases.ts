// Alternatives without `otherwise` must cover everything. Where every condition looks at one and the same
// value, the cases are rows of a chart over it, and the same proof says whether a value falls through.
import { type Domain, type Side, stretch } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import type { Span } from "../../../core/span.ts";
import type { Type } from "../../../core/type.ts";
import type { Rule } from "./rule.ts";
import { type CheckContext, fault } from "./scope.ts";
import { writePart } from "./witness.ts";

/** Notes a finding where the cases leave something out, or where that cannot be seen from them. */
export function openCases(context: CheckContext, at: Span, whens: readonly Rule[]): void {
  if (whens.some((when) => when.type.is === "anything" || when.does === "none")) return;
  const looks = whens.map((when) => look(when));
  const first = looks[0];
  if (first === undefined || looks.some((one) => one === undefined || one.name !== first.name)) {
    fault(context, "choose/open", at, {}, [
      { says: "Add an otherwise", edits: [{ at: { start: at.end, end: at.end }, text: ", otherwise " }] },
    ]);
    return;
  }
  const signature = context.scope.signature(first.name);
  const domain: Domain =
    first.type.is === "kind"
      ? { is: "words", count: first.type.words.length }
      : first.type.is === "yes-no"
        ? { is: "words", count: 2 }
        : { is: "line", low: signature?.range?.low ?? -Infinity, high: signature?.range?.high ?? Infinity };
  const hole = findHole(
    [domain],
    looks.map((one) => [one!.side]),
  );
  if (hole.is !== "found") return;
  fault(context, "choose/open", at, {
    witness: `${first.name} ${writePart(hole.what[0]!, { type: first.type, unit: signature?.unit })}`,
  });
}

export interface Look {
  readonly name: string;
  readonly type: Type;
  readonly side: Side;
}

/** A condition as a part of one value's range; undefined where it looks at more than that. */
export function look(when: Rule): Look | undefined {
  switch (when.does) {
    case "value":
      return when.column === undefined
        ? { name: when.name, type: when.type, side: { is: "words", words: new Set([1]) } }
        : undefined;
    case "not": {
      const of = look(when.of);
      if (of === undefined || of.side === "any") return undefined;
      if (of.side.is === "words") {
        const count = of.type.is === "kind" ? of.type.words.length : 2;
        const { words } = of.side;
        return {
          ...of,
          side: { is: "words", words: new Set([...Array(count).keys()].filter((word) => !words.has(word))) },
        };
      }
      const [only] = of.side.stretches;
      if (of.side.stretches.length !== 1 || only === undefined) return undefined;
      return {
        ...of,
        side: {
          is: "line",
          stretches: [
            ...(only.low > -Infinity ? [stretch(-Infinity, true, only.low, !only.lowIn)] : []),
            ...(only.high < Infinity ? [stretch(only.high, !only.highIn, Infinity, true)] : []),
          ],
        },
      };
    }
    case "words":
      return named(when.of, { is: "words", words: new Set(when.words) });
    case "band": {
      const low =
        when.low === undefined ? -Infinity : when.low.does === "constant" ? when.low.value : undefined;
      const high =
        when.high === undefined ? Infinity : when.high.does === "constant" ? when.high.value : undefined;
      return low === undefined || high === undefined
        ? undefined
        : named(when.of, { is: "line", stretches: [stretch(low, when.lowIn, high, when.highIn)] });
    }
    case "compare":
      return compared(when);
    case "constant":
    case "none":
    case "text":
    case "local":
    case "arithmetic":
    case "negate":
    case "function":
    case "most":
    case "round":
    case "and":
    case "or":
    case "known":
    case "choose":
    case "gather":
    case "left-count":
    case "left-first":
    case "left-among":
    case "call":
    case "read-chart":
    case "stopped":
    case "of-steps":
      return undefined;
  }
}

const named = (of: Rule, side: Side): Look | undefined =>
  of.does === "value" && of.column === undefined ? { name: of.name, type: of.type, side } : undefined;

function compared(when: Extract<Rule, { does: "compare" }>): Look | undefined {
  const { op, left, right } = when;
  const [of, end, turned] =
    right.does === "constant"
      ? [left, right, false]
      : left.does === "constant"
        ? [right, left, true]
        : [undefined, undefined, false];
  if (of === undefined || end?.does !== "constant") return undefined;
  const value = end.value;
  const words = of.type.is === "kind" ? of.type.words.length : of.type.is === "yes-no" ? 2 : undefined;
  if (words !== undefined) {
    if (op === "is") return named(of, { is: "words", words: new Set([value]) });
    if (op === "is not")
      return named(of, {
        is: "words",
        words: new Set([...Array(words).keys()].filter((word) => word !== value)),
      });
    return undefined;
  }
  switch (op) {
    case "<":
      return named(of, {
        is: "line",
        stretches: [turned ? stretch(value, false, Infinity, true) : stretch(-Infinity, true, value, false)],
      });
    case "<=":
      return named(of, {
        is: "line",
        stretches: [turned ? stretch(value, true, Infinity, true) : stretch(-Infinity, true, value, true)],
      });
    case "is":
      return named(of, { is: "line", stretches: [stretch(value, true, value, true)] });
    case "is not":
      return named(of, {
        is: "line",
        stretches: [stretch(-Infinity, true, value, false), stretch(value, false, Infinity, true)],
      });
  }
}
