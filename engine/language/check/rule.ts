// A checked rule: every name is resolved, every amount is in SI, every part has a type. Nothing below the
// checker ever meets a name that means nothing or a sum of unlike things.
import type { Domain, Side } from "../../../core/box.ts";
import type { Reason } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import type { RoundWay } from "../../../core/number.ts";
import type { Column, Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";

export type Rule = RuleBase &
  (
    | { readonly does: "constant"; readonly value: number }
    /** No value, and why: the fall-through of alternatives, and what takes the place of a faulty part. */
    | { readonly does: "none"; readonly reason: Reason }
    | { readonly does: "text"; readonly text: TextRule }
    /** The value of another statement, or one column of a chart with several values. */
    | { readonly does: "value"; readonly name: string; readonly column?: number }
    /** A formula's parameter, a list's counter, or a column above in the same list. */
    | { readonly does: "local"; readonly name: string }
    | {
        readonly does: "arithmetic";
        readonly op: "+" | "-" | "*" | "/" | "^";
        readonly left: Rule;
        readonly right: Rule;
      }
    | { readonly does: "negate"; readonly of: Rule }
    | { readonly does: "function"; readonly name: FunctionName; readonly of: Rule }
    | { readonly does: "most"; readonly pick: "largest" | "smallest"; readonly of: readonly Rule[] }
    /** Multiples of `step` counted from `base`, both in SI. */
    | {
        readonly does: "round";
        readonly way: RoundWay;
        readonly of: Rule;
        readonly step: Rule;
        readonly base: number;
      }
    | {
        readonly does: "compare";
        readonly op: "<" | "<=" | "is" | "is not";
        readonly left: Rule;
        readonly right: Rule;
      }
    | { readonly does: "and" | "or"; readonly left: Rule; readonly right: Rule }
    | { readonly does: "not"; readonly of: Rule }
    | {
        readonly does: "band";
        readonly of: Rule;
        readonly low?: Rule;
        readonly lowIn: boolean;
        readonly high?: Rule;
        readonly highIn: boolean;
      }
    | { readonly does: "words"; readonly of: Rule; readonly words: readonly number[] }
    | { readonly does: "known"; readonly of: Rule }
    | {
        readonly does: "choose";
        readonly cases: readonly { readonly value: Rule; readonly when: Rule }[];
        readonly otherwise: Rule;
      }
    | {
        readonly does: "gather";
        readonly what: "sum" | "largest" | "smallest" | "count" | "first" | "last";
        readonly list: string;
        readonly column: number;
      }
    | { readonly does: "left-count" | "left-first"; readonly chart: string }
    | { readonly does: "left-among"; readonly chart: string; readonly of: Rule }
    | {
        readonly does: "call";
        readonly formula: string;
        readonly parameters: readonly string[];
        readonly args: readonly Rule[];
        readonly body: Rule;
      }
    /** A chart read with values given in place of its conditions. */
    | {
        readonly does: "read-chart";
        readonly chart: string;
        readonly table: CheckedChart;
        readonly column: number;
        readonly args: readonly Rule[];
      }
    | { readonly does: "stopped" }
    /** Of the steps that apply in the job: how many, or the sum of their times. */
    | { readonly does: "of-steps"; readonly what: OfSteps }
  );

interface RuleBase {
  readonly type: Type;
  /** Counts from the first character of the statement that the rule is in. */
  readonly at: Span;
  /** In which values are shown where nothing else says so. */
  readonly unit?: Unit;
}

export type OfSteps = "count" | "takes" | "waits";

export type FunctionName = "sqrt" | "abs" | "exp" | "ln" | "log10" | "sin" | "cos" | "tan" | "atan";

export interface TextRule {
  readonly pieces: readonly (
    | string
    | { readonly rule: Rule; readonly unit?: Unit; readonly name?: string }
  )[];
}

// ───────────── a chart whose cells are rules ─────────────

export type ChartMode = "rows" | "first-row-wins" | "keep-every-row" | "straight" | "curve";

export interface CheckedChart {
  readonly mode: ChartMode;
  readonly outside: "nothing" | "hold-ends";
  readonly conditions: readonly Condition[];
  readonly outs: readonly Column[];
  readonly rows: readonly CheckedRow[];
  /** Places in `conditions` whose cells are points to go between; empty unless straight or curve. */
  readonly between: readonly number[];
  readonly holes: readonly Hole[];
  readonly clashes: readonly { readonly rows: readonly [number, number]; readonly witness: string }[];
  /** Whether there are holes, or more of them, was not settled while the book was read. */
  readonly open?: boolean;
  /** Column of the written row for each condition, then for each value. */
  readonly order: readonly number[];
}

export interface Condition {
  readonly name: string;
  readonly type: Type;
  readonly unit: Unit | undefined;
  readonly domain: Domain;
  readonly rule: Rule;
  /** Declared in the chart itself: it has a value only where the chart is called. */
  readonly parameter: boolean;
}

export interface CheckedRow {
  /** Its place among the rows as written. */
  readonly index: number;
  readonly at: Span;
  readonly sides: readonly Side[];
  /** SI value of each condition that is a point, else undefined. */
  readonly points: readonly (number | undefined)[];
  readonly values: readonly Rule[];
}

export interface Hole {
  readonly witness: string;
  /** Cells for a row that would fill it, in the order written; values are empty. */
  readonly cells: readonly string[];
}
