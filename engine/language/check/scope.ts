// What a statement shows to the others: just enough to check a rule that names it. When an edit leaves
// this as it was, no other statement needs to be looked at again.
import type { Span } from "../../../core/span.ts";
import { type Type, typeKey } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import type { Expr, Fault, Statement } from "../syntax/tree.ts";
import type { CheckedChart, Rule } from "./rule.ts";

export interface Signature {
  readonly what: "ask" | "dial" | "figure" | "chart" | "list" | "formula";
  readonly type: Type;
  readonly unit: Unit | undefined;
  /** A dial's value in SI, so that chart cells may name it. */
  readonly constant?: number;
  readonly formula?: {
    readonly parameters: readonly {
      readonly name: string;
      readonly type: Type;
      readonly unit: Unit | undefined;
    }[];
    readonly body: Rule;
  };
  /** An ask's range in SI. */
  readonly range?: { readonly low: number; readonly high: number };
  /** A chart that can be called; its rows are no part of `key`. */
  readonly chart?: CheckedChart;
  /** A chart with conditions of its own has no value unless it is called. */
  readonly calledOnly?: boolean;
  /** Equal texts mean equal signatures, but for the constant. */
  readonly key: string;
  /** Equal texts mean that a call of it comes out the same. */
  readonly callKey?: string;
}

/**
 * What an edit compares of a name that a statement asked for; `name()` means a call of it. The value of
 * a dial
 * counts only where it is read while the book is checked: in the cells of a chart, and in an ask.
 */
export function askedKey(
  of: (name: string) => Signature | undefined,
  name: string,
  { body }: Statement,
): string {
  if (name.endsWith("()")) return of(name.slice(0, -2))?.callKey ?? "";
  const { key = "", constant } = of(name) ?? {};
  const isRead = body.keyword === "chart" || body.keyword === "ask";
  return isRead && constant !== undefined ? `${key}=${constant}` : key;
}

/**
 * A hash of a text: equal for equal ones, and for unequal ones but by a
 * chance of one in 2^53.
 */
export function digest(text: string): string {
  let [a, b] = [0xdeadbeef, 0x41c6ce57];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 2654435761);
    b = Math.imul(b ^ code, 1597334677);
  }
  a = Math.imul(a ^ (a >>> 16), 2246822507) ^ Math.imul(b ^ (b >>> 13), 3266489909);
  b = Math.imul(b ^ (b >>> 16), 2246822507) ^ Math.imul(a ^ (a >>> 13), 3266489909);
  return `${(b >>> 0).toString(36)}.${(a >>> 0).toString(36)}`;
}

export function signature(parts: Omit<Signature, "key">, more = ""): Signature {
  return {
    ...parts,
    key: [
      parts.what,
      typeKey(parts.type),
      parts.unit?.symbol ?? "",
      parts.range ? `${parts.range.low}:${parts.range.high}` : "",
      more,
    ].join("|"),
  };
}

export interface Kind {
  readonly name: string;
  readonly words: readonly string[];
}

/** All names of the book as the statement being checked sees them. */
export interface Scope {
  readonly signature: (name: string) => Signature | undefined;
  /**
   * Whether a statement of that name is in the book but could not be understood: it has its own finding.
   */
  readonly spoiled: (name: string) => boolean;
  readonly kind: (name: string) => Kind | undefined;
  /** Kinds that have this word. */
  readonly kindsWith: (word: string) => readonly Kind[];
  readonly names: () => Iterable<string>;
  readonly kinds: () => Iterable<string>;
  readonly hasLine: (keyword: "step" | "caution" | "stop", name: string) => boolean;
  readonly lines: (keyword: "step" | "caution" | "stop") => Iterable<string>;
  /** The one currency of the book, if any statement names one. */
  readonly currency: () => string | undefined;
}

/** What is known while one statement is checked. */
export interface CheckContext {
  readonly scope: Scope;
  readonly locals: ReadonlyMap<string, { readonly type: Type; readonly unit: Unit | undefined }>;
  readonly faults: Fault[];
  /** Where in the statement's text rules are read, for repairs that quote it. */
  readonly source: string;
  /** Checks one rule; `hint` lets a bare word find its kind. */
  readonly check: (context: CheckContext, expr: Expr, hint?: Type) => Rule;
  /** True inside a text, where an unknown name is a finding of its own. */
  readonly inText?: boolean;
}

export interface Mend {
  readonly says: string;
  readonly edits: readonly { readonly at: Span; readonly text: string }[];
}

/** Notes a fault; mends are certain repairs, the first of which one key applies. */
export function fault(
  context: CheckContext,
  code: string,
  at: Span,
  facts: Record<string, unknown>,
  mends: readonly Mend[] = [],
): void {
  context.faults.push({ code, at, facts: mends.length > 0 ? { ...facts, mends } : facts });
}
