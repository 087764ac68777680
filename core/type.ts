// The types that a rule of the book can have. A type says what may be done with a value;
// the unit in which it is shown travels beside it and never decides anything.
import { type Dimension, ONE, dimensionKey, dimensionName, isPlain, sameDimension } from "./dimension.ts";
import type { Unit } from "./unit.ts";

type Basis = "plain" | "mass" | "volume";

export type Type =
  | { readonly is: "quantity"; readonly dimension: Dimension }
  | { readonly is: "count" }
  | { readonly is: "temperature" }
  | { readonly is: "share"; readonly by: Basis }
  | { readonly is: "taper" }
  | { readonly is: "mix"; readonly by: "mass" | "volume" }
  | { readonly is: "yes-no" }
  | { readonly is: "kind"; readonly kind: string; readonly words: readonly string[] }
  | { readonly is: "text" }
  | { readonly is: "list"; readonly columns: readonly Column[] }
  | { readonly is: "row"; readonly columns: readonly Column[] }
  | { readonly is: "kept"; readonly of: Type }
  /** Of something that already has a finding; it fits everywhere, so that one fault is reported once. */
  | { readonly is: "anything" };

export interface Column {
  readonly name: string;
  readonly type: Type;
  readonly unit: Unit | undefined;
}

export const NUMBER: Type = { is: "quantity", dimension: ONE };
export const COUNT: Type = { is: "count" };
export const TAPER: Type = { is: "taper" };
const TEMPERATURE: Type = { is: "temperature" };
export const YES_NO: Type = { is: "yes-no" };
export const ANYTHING: Type = { is: "anything" };
export const quantity = (dimension: Dimension): Type => ({ is: "quantity", dimension });
const share = (by: Basis): Type => ({ is: "share", by });

/** The type of a number in this unit. */
export function typeOfUnit(unit: Unit): Type {
  switch (unit.sense) {
    case "amount":
      return { is: "quantity", dimension: unit.dimension };
    case "temperature":
      return TEMPERATURE;
    case "share":
      return share("plain");
    case "share by mass":
      return share("mass");
    case "share by volume":
      return share("volume");
    case "count":
      return COUNT;
  }
}

/**
 * Two types are one if this text is; it is what an edit must change before another statement is checked
 * again.
 */
export function typeKey(type: Type): string {
  switch (type.is) {
    case "quantity":
      return `q${dimensionKey(type.dimension)}`;
    case "share":
      return `share ${type.by}`;
    case "mix":
      return `mix ${type.by}`;
    case "kind":
      return `kind ${type.kind}(${type.words.join(" ")})`;
    case "list":
    case "row": {
      const columns = type.columns.map((c) => `${c.name}:${typeKey(c.type)}:${c.unit?.symbol ?? ""}`);
      return `${type.is}(${columns.join(",")})`;
    }
    case "kept":
      return `kept ${typeKey(type.of)}`;
    case "count":
    case "temperature":
    case "taper":
    case "yes-no":
    case "text":
    case "anything":
      return type.is;
  }
}

/**
 * Whether a value of type `given` can be used where `wanted` is. A count is a plain number; a plain share is
 * one too.
 */
export function fits(given: Type, wanted: Type): boolean {
  if (given.is === "anything" || wanted.is === "anything") return true;
  if (wanted.is === "quantity" && isPlain(wanted.dimension) && given.is === "count") return true;
  if (given.is === "quantity" && wanted.is === "quantity")
    return sameDimension(given.dimension, wanted.dimension);
  if (given.is === "kind" && wanted.is === "kind") return given.kind === wanted.kind;
  return typeKey(given) === typeKey(wanted);
}

/** Plain numbers: counts and numbers without a dimension. */
export const isNumber = (type: Type): boolean =>
  type.is === "count" || (type.is === "quantity" && isPlain(type.dimension));

/** Whether values of this type lie on a line, so that bands and tolerances mean something. */
export const isOrdered = (type: Type): boolean => {
  switch (type.is) {
    case "quantity":
    case "count":
    case "temperature":
    case "share":
    case "taper":
    case "mix":
    case "anything":
      return true;
    case "kind":
    case "yes-no":
    case "text":
    case "list":
    case "row":
    case "kept":
      return false;
  }
};

/** "a length", "a share by mass", "one of substrate": the type in a sentence. */
export function typeName(type: Type): string {
  switch (type.is) {
    case "quantity":
      return isPlain(type.dimension) ? "a plain number" : withArticle(dimensionName(type.dimension));
    case "count":
      return "a count";
    case "temperature":
      return "a temperature";
    case "share":
      return type.by === "plain" ? "a share" : `a share by ${type.by}`;
    case "taper":
      return "a taper";
    case "mix":
      return `a mix by ${type.by}`;
    case "yes-no":
      return "yes or no";
    case "kind":
      return `one of ${type.kind}`;
    case "text":
      return "a text";
    case "list":
      return "a list";
    case "row":
      return "a chart row with several values";
    case "kept":
      return "the rows that a chart keeps";
    case "anything":
      return "unclear";
  }
}

const withArticle = (name: string) =>
  name.startsWith("temperature apart") ||
  (/^(per|mass|money|time|amount|length) ?(\/|·|per|of)?/.test(name) && name.includes(" "))
    ? name
    : `${/^[aeiou]/.test(name) ? "an" : "a"} ${name}`;
