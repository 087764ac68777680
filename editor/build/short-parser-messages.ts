// Stands in the built pages for the messages of the parser's package. The one that the engine looks into,
// what single token was wanted, is the same; for all others the engine has sentences of its own.

interface Mismatch {
  readonly expected: { readonly name: string; readonly LABEL?: string };
  readonly actual: { readonly image: string };
}

const none = (): string => "";

export const defaultParserErrorProvider = {
  buildMismatchTokenMessage: ({ expected, actual }: Mismatch): string =>
    `Expecting ${expected.LABEL ? "" : "token of type "}--> ${expected.LABEL || expected.name} <-- ` +
    `but found --> '${actual.image}' <--`,
  buildNotAllInputParsedMessage: none,
  buildNoViableAltMessage: none,
  buildEarlyExitMessage: none,
};
export const defaultGrammarResolverErrorProvider = { buildRuleNotFoundError: none };
export const defaultGrammarValidatorErrorProvider = {};
