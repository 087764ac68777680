// The tokens of one statement. "Tight binds, spaced operates": hyphens inside a name, slashes inside a
// fraction or a unit belong to it; the same signs with spaces around them subtract and divide.
//
// Every token brings its own sticky pattern, because names may be of any alphabet, and says which
// characters it can begin with, so that the lexer need not try them all at every place.
import { type IToken, Lexer, type TokenType, createToken } from "chevrotain";

const LETTER = "\\p{L}";
const INNER = "[\\p{L}\\p{M}\\p{N}]";
const NAME = `${LETTER}${INNER}*(?:-${INNER}+)*`;
const NOT_GOING_ON = "(?![\\p{L}\\p{M}\\p{N}]|-[\\p{L}\\p{N}])";

const ascii = (pattern: RegExp): number[] =>
  Array.from({ length: 128 }, (_, code) => code).filter((code) => pattern.test(String.fromCharCode(code)));
// The lexer sorts characters above 255 into groups of 255; one of each group represents all of it.
const beyond: number[] = [
  ...Array.from({ length: 128 }, (_, i) => i + 128),
  ...Array.from({ length: 257 }, (_, i) => Math.min(65535, 256 + i * 255)),
];
const LETTERS = [...ascii(/[A-Za-z]/), ...beyond];
const DIGITS = ascii(/[0-9]/);

function sticky(pattern: string) {
  const expression = new RegExp(pattern, "uy");
  return {
    exec: (text: string, offset: number): RegExpExecArray | null => {
      expression.lastIndex = offset;
      return expression.exec(text);
    },
  };
}

const all: TokenType[] = [];

function token(
  name: string,
  pattern: string,
  starts: number[],
  extra: { label?: string; categories?: TokenType[]; skipped?: boolean; breaks?: boolean } = {},
): TokenType {
  const made = createToken({
    name,
    label: extra.label ?? name,
    pattern: sticky(pattern),
    start_chars_hint: starts,
    line_breaks: extra.breaks ?? false,
    ...(extra.categories ? { categories: extra.categories } : {}),
    ...(extra.skipped ? { group: Lexer.SKIPPED } : {}),
  });
  all.push(made);
  return made;
}

const spaced = (phrase: string) => phrase.split(" ").join("\\s+") + NOT_GOING_ON;
const words = (name: string, phrase: string, categories?: TokenType[]) =>
  token(name, spaced(phrase), [phrase.charCodeAt(0)], {
    label: phrase,
    breaks: phrase.includes(" "),
    ...(categories ? { categories } : {}),
  });

token("Space", "[ \\t\\r\\n\\u00a0\\ufeff]+", [9, 10, 13, 32, ...beyond], { skipped: true, breaks: true });
token("Comment", "--[^\\n]*", [45], { skipped: true });

export const TextToken = token("TextToken", '"[^"\\n]*"', [34], { label: "a text in double quotes" });
export const OpenText = token("OpenText", '"[^"\\n]*', [34], {
  label: "a text whose closing quote is missing",
});
export const Ratio = token("Ratio", "\\d+(?:\\.\\d+)?:\\d+(?:\\.\\d+)?", DIGITS, {
  label: "a ratio such as 1:12",
});
export const Mixed = token("Mixed", "\\d+[ ]+\\d+/\\d+", DIGITS, { label: "a number" });
export const Fraction = token("Fraction", "\\d+/\\d+", DIGITS, { label: "a number" });
export const NumberToken = token("NumberToken", "\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?", DIGITS, {
  label: "a number",
});

// Names that begin with the words of the language are longer names, never those words: over-spray.
export const Name = createToken({
  name: "Name",
  label: "a name",
  pattern: sticky(NAME),
  start_chars_hint: LETTERS,
  line_breaks: false,
});

export const RoundedUp = words("RoundedUp", "rounded up to");
export const RoundedDown = words("RoundedDown", "rounded down to");
export const RoundedNear = words("RoundedNear", "rounded to");
export const RunOutAt = words("RunOutAt", "run out at");
export const PairedAt = words("PairedAt", "paired at");
export const CountedIn = words("CountedIn", "counted in");
export const ByMass = words("ByMass", "by mass");
export const ByVolume = words("ByVolume", "by volume");
export const AndOver = words("AndOver", "and over");
export const UpTo = words("UpTo", "up to");
export const IsNot = words("IsNot", "is not");
export const OneOf = words("OneOf", "one of");
export const SumOf = words("SumOf", "sum of");
export const LargestOf = words("LargestOf", "largest of");
export const SmallestOf = words("SmallestOf", "smallest of");
export const CountOf = words("CountOf", "count of");
export const FirstOf = words("FirstOf", "first of");
export const LastOf = words("LastOf", "last of");
export const FirstKnownOf = words("FirstKnownOf", "first known of");
export const SmallestKnownOf = words("SmallestKnownOf", "smallest known of");
export const LargestKnownOf = words("LargestKnownOf", "largest known of");
export const CountKnownOf = words("CountKnownOf", "count known of");
export const StraightBetween = words("StraightBetween", "straight between rows");
export const CurveBetween = words("CurveBetween", "curve between rows");
export const FirstRowWins = words("FirstRowWins", "first row wins");
export const KeepEvery = words("KeepEvery", "keep every row that fits");
export const NothingOutside = words("NothingOutside", "nothing outside");
export const HoldEnds = words("HoldEnds", "hold ends");
export const MeasuredTo = words("MeasuredTo", "measured to");
export const DrawnAs = words("DrawnAs", "drawn as");
export const IfUnknownTake = words("IfUnknownTake", "if unknown take");
export const IfBlankTake = words("IfBlankTake", "if blank take");
export const IfEitherTake = words("IfEitherTake", "if blank or unknown take");
export const If = words("If", "if");
export const Otherwise = words("Otherwise", "otherwise");
export const And = words("And", "and");
export const Or = words("Or", "or");
export const Not = words("Not", "not");
export const Is = words("Is", "is");
export const In = words("In", "in");
export const Of = words("Of", "of");
export const By = words("By", "by");
export const To = words("To", "to");
export const Under = words("Under", "under");
export const Over = words("Over", "over");
export const Because = words("Because", "because");
export const From = words("From", "from");
export const When = words("When", "when");
export const With = words("With", "with");
export const Gives = words("Gives", "gives");
export const Takes = words("Takes", "takes");
export const Waits = words("Waits", "waits");
export const Yes = words("Yes", "yes");
export const No = words("No", "no");
export const AnyWord = words("AnyWord", "any");
export const Apart = words("Apart", "apart");
export const After = words("After", "after");
export const For = words("For", "for");
// Words only in their places; everywhere else they are names like any other.
export const Known = words("Known", "known", [Name]);
export const Among = words("Among", "among", [Name]);
export const Before = words("Before", "before", [Name]);
export const Whole = words("Whole", "whole", [Name]);
export const Then = words("Then", "then", [Name]);
export const Usually = words("Usually", "usually", [Name]);
export const Amends = words("Amends", "amends", [Name]);
export const Edition = words("Edition", "edition", [Name]);

export const SlashUnit = token(
  "SlashUnit",
  "[\\p{L}°µ][\\p{L}\\p{N}°²³]*(?:/[\\p{L}°µ][\\p{L}\\p{N}°²³]*)+(?!-)",
  [...LETTERS],
  { label: "a unit" },
);
all.push(Name);
export const DegreeUnit = token("DegreeUnit", "°[CF]", [176], { label: "a unit" });
export const PowerUnit = token("PowerUnit", "(?:m|cm|mm)[²³]", ascii(/[cm]/), { label: "a unit" });
all.splice(all.indexOf(PowerUnit), 1);
all.splice(all.indexOf(Name), 0, PowerUnit);
export const Percent = token("Percent", "%", [37], { label: "%" });
export const PlusMinus = token("PlusMinus", "±|\\+/-", [43, 177], { label: "±" });

const sign = (name: string, text: string) =>
  token(name, text.replace(/[.*+?^$(){}|[\]\\]/g, "\\$&"), [text.charCodeAt(0)], { label: text });
export const AtMost = sign("AtMost", "<=");
export const AtLeast = sign("AtLeast", ">=");
export const Less = sign("Less", "<");
export const More = sign("More", ">");
export const Equals = sign("Equals", "=");
export const Plus = sign("Plus", "+");
export const Minus = sign("Minus", "-");
export const Star = sign("Star", "*");
export const Slash = sign("Slash", "/");
export const Caret = sign("Caret", "^");
export const Open = sign("Open", "(");
export const Close = sign("Close", ")");
export const Comma = sign("Comma", ",");
export const Dot = sign("Dot", ".");
export const Bar = sign("Bar", "|");

export const ALL_TOKENS: readonly TokenType[] = all;

/** Words that can never be names. */
export const RESERVED: readonly string[] = [
  If,
  Otherwise,
  And,
  Or,
  Not,
  Is,
  In,
  Of,
  By,
  To,
  Under,
  Over,
  Because,
  From,
  When,
  With,
  Gives,
  Takes,
  Waits,
  Yes,
  No,
  AnyWord,
  Apart,
  After,
  For,
].map((t) => t.LABEL!);

/**
 * `validate`: also checks the tokens themselves (a pattern that another hides); throws where one is wrong.
 */
export const makeLexer = (validate: boolean): Lexer =>
  new Lexer(all, { positionTracking: "onlyOffset", ensureOptimizations: true, skipValidations: !validate });

const lexer = makeLexer(false);

export interface Lexed {
  readonly tokens: IToken[];
  /** Stretches that no token begins with. */
  readonly errors: readonly { readonly offset: number; readonly length: number }[];
}

export function lex(text: string): Lexed {
  const { tokens, errors } = lexer.tokenize(text);
  return { tokens, errors: errors.map(({ offset, length }) => ({ offset, length })) };
}

export type { IToken };
