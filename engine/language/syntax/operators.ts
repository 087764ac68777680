// Puts operands and operators together to trees, by how tightly operators bind; a sign joins the literal
// after it.
import type { IToken, TokenType } from "chevrotain";
import { spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { BinaryOp, Expr } from "./tree.ts";

export const binary = (op: BinaryOp, token: IToken, left: Expr, right: Expr): Expr => ({
  is: "binary",
  at: { start: left.at.start, end: right.at.end },
  op,
  opAt: spanOf(token),
  left,
  right,
});

/** How tightly the operators of one flat row bind. */
const TIGHT = new Map<TokenType, number>([
  [T.Or, 1],
  [T.And, 2],
  [T.RunOutAt, 3],
  [T.PairedAt, 3],
  [T.Plus, 4],
  [T.Minus, 4],
  [T.Star, 5],
  [T.Slash, 5],
  [T.Of, 5],
]);

const OPERATORS = new Map<TokenType, BinaryOp>([
  [T.Or, "or"],
  [T.And, "and"],
  [T.RunOutAt, "run out at"],
  [T.PairedAt, "paired at"],
  [T.Plus, "+"],
  [T.Minus, "-"],
  [T.Star, "*"],
  [T.Slash, "/"],
  [T.Of, "of"],
]);

/** Puts a flat row of parts and operators together: the tighter first, equals from the left. */
export function climb(parts: readonly Expr[], ops: readonly IToken[]): Expr {
  const out: Expr[] = [parts[0]!];
  const waiting: IToken[] = [];
  const join = () => {
    const op = waiting.pop()!;
    const right = out.pop()!;
    out.push(binary(OPERATORS.get(op.tokenType)!, op, out.pop()!, right));
  };
  for (const [i, op] of ops.entries()) {
    while (waiting.length > 0 && TIGHT.get(waiting.at(-1)!.tokenType)! >= TIGHT.get(op.tokenType)!) join();
    waiting.push(op);
    out.push(parts[i + 1]!);
  }
  while (waiting.length > 0) join();
  return out[0]!;
}

/**
 * A minus before a plain literal is part of it, so that -5 °C is a temperature and not the opposite of one.
 */
export function negate(of: Expr, sign: IToken): Expr {
  const at = { start: sign.startOffset, end: of.at.end };
  if (of.is === "number") return { is: "number", at, value: -of.value };
  if (of.is === "quantity")
    return { is: "quantity", at, parts: of.parts.map((part) => ({ ...part, value: -part.value })) };
  return { is: "minus", at, of };
}
