// Where tokens are in the text they were cut from.
import type { IToken } from "chevrotain";
import type { Span } from "../../../core/span.ts";

export const end = (token: IToken): number => token.startOffset + token.image.length;
export const spanOf = (token: IToken): Span => ({ start: token.startOffset, end: end(token) });
