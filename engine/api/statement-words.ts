// The words of a statement as rows and questions show them: its rule, its title, its reason, its type.
import type { Span } from "../../core/span.ts";
import { typeName } from "../../core/type.ts";
import type { Row } from "../../core/view.ts";
import type { Entry } from "../language/check/book.ts";
import type { Signature } from "../language/check/scope.ts";
import { oneLine } from "../program/eval/show.ts";

type Words = Pick<Row, "rule" | "title" | "because" | "basis">;

// A statement's words depend on its text alone, those of its type on its signature: after an edit nearly all
// are unchanged.
const words = new WeakMap<Entry["statement"], Words>();
const types = new WeakMap<Signature, string>();

export function wordsOf(statement: Entry["statement"]): Words {
  const known = words.get(statement);
  if (known !== undefined) return known;
  const { text, ruleAt, clauses, body } = statement;
  const made: Words = {
    rule: ruleAt
      ? oneLine(text.slice(ruleAt.start, ruleAt.end))
      : body.keyword === "unreadable"
        ? oneLine(text.split("\n")[0]!)
        : "",
    title: plainText(clauses.title),
    ...(clauses.because ? { because: plainText(clauses.because) } : {}),
    ...(clauses.from
      ? {
          basis:
            clauses.from.detail === undefined
              ? clauses.from.kind
              : `${clauses.from.kind} "${clauses.from.detail}"`,
        }
      : {}),
  };
  words.set(statement, made);
  return made;
}

export function typeWords(signature: Signature): string {
  const known = types.get(signature);
  if (known !== undefined) return known;
  const made = `${typeName(signature.type)}${signature.unit ? ` in ${signature.unit.symbol}` : ""}`;
  types.set(signature, made);
  return made;
}

export const plainTitle = (entry: Entry): string => wordsOf(entry.statement).title;

/** A text with its inserts as they are written. */
export function plainText(text: Entry["statement"]["clauses"]["title"]): string {
  return (text?.pieces ?? [])
    .map((piece) =>
      typeof piece === "string" ? piece : `{${piece.rule.is === "name" ? piece.rule.name : "…"}}`,
    )
    .join("");
}

/** A rule as it is written, on one line. */
export const sourceOf = (entry: Entry, at: Span): string =>
  oneLine(entry.statement.text.slice(at.start, at.end));
