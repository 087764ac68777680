// Stands in the built pages for how the parser's package reads the insides of a regular expression. Every
// token of the language brings a pattern of its own and the characters that it can begin with, so the lexer
// never has to find them out; were one to forget, the lexer could not be made.

const neverAsked = (): never => {
  throw new Error("A token does not say which characters it can begin with.");
};
export {
  neverAsked as canMatchCharCode,
  neverAsked as getOptimizedStartCodesIndices,
  neverAsked as getRegExpAst,
};

export const failedOptimizationPrefixMsg = "";
export const clearRegExpParserCache = (): void => undefined;
export class BaseRegExpVisitor {}
