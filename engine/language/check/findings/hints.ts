// What somebody most likely meant who wrote a word or sign that the language does not have: habits from the
// workshop wall, from school and from other notations. A hint is a sentence behind the finding; it is never a
// repair.
import { nearest } from "../did-you-mean.ts";
import { type Facts, meant } from "./define.ts";

const WORDS: ReadonlyMap<string, string> = new Map([
  ["×", "Times is *."],
  ["÷", "Divided by is / with a space on both sides."],
  ["−", "Minus is - with a space on both sides."],
  ["–", "Minus is - with a space on both sides."],
  ["≥", "At least is >=."],
  ["≤", "At most is <=."],
  ["≠", "Is not is written is not."],
  ["&", "Write and."],
  ["“", 'A text stands between straight quotes, "…".'],
  ["'", 'A text stands between straight double quotes, "…".'],
  ["C", "Degrees Celsius are °C."],
  ["F", "Degrees Fahrenheit are °F."],
  ["degrees", "Temperatures are in °C or °F, angles in deg."],
  ["max", "The larger of two is largest(a, b), and of a column largest of L.c."],
  ["maximum", "The larger of two is largest(a, b), and of a column largest of L.c."],
  ["min", "The smaller of two is smallest(a, b), and of a column smallest of L.c."],
  ["minimum", "The smaller of two is smallest(a, b), and of a column smallest of L.c."],
  ["round", "Rounding stands behind: a rounded to 1 mm."],
  ["ceil", "Rounding stands behind: a rounded up to 1 mm."],
  ["floor", "Rounding stands behind: a rounded down to 1 mm."],
  ["roundup", "Rounding stands behind: a rounded up to 1 mm."],
  ["in.", "Inches are inch."],
  ["feet", "Feet are ft."],
  ["foot", "Feet are ft."],
  ["true", "Write yes."],
  ["false", "Write no."],
]);

/**
 * What to write instead of this word or sign, as a sentence with a space before it; "" where nothing is known
 * of it.
 */
export function instead(word: string): string {
  const hint = WORDS.get(word) ?? WORDS.get(word.toLowerCase());
  return hint === undefined ? "" : ` ${hint}`;
}

const CLAUSES = ["takes", "waits", "because", "from", "when", "with", "gives", "otherwise", "measured"];

/**
 * Why a word or sign that the language does have cannot stand here, as a sentence with a space before it; ""
 * where that is not clear.
 */
export function unexpected({ found, after }: Facts): string {
  if (found === "in" && /^[\d ./]+$/.test(String(after))) return " Inches are inch: 1/4 inch.";
  switch (found) {
    case "if":
      return (
        " In a rule the value comes first: 3 mm if flexes, otherwise 2 mm. A step, caution " +
        "or stop says when, not if."
      );
    case "then":
    case "else":
      return " Alternatives read: 3 mm if flexes, otherwise 2 mm.";
    case "=":
      return " Two values are compared with is.";
    case "<":
    case "<=":
    case ">":
    case ">=":
      return (
        " A comparison has one sign and a value on each side; between two limits it is a " +
        "band, as in: a is 3 mm to 5 mm."
      );
    case "by":
      return " A share is by mass or by volume.";
    default:
      break;
  }
  if (typeof found !== "string") return "";
  if (/^\p{Lu}/u.test(found)) return " A text stands between double quotes.";
  return instead(found) || meant(nearest(found, CLAUSES));
}
