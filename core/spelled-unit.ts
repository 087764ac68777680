// Units as the trade spells them (`sq ft`, `fl oz`, `hrs`, `"`, `F`), each as the language writes it. An
// answer may spell a unit in any of these ways; a book has one spelling for each, so that books read alike.
import { readUnit, unitSymbols } from "./unit.ts";

/** The language's symbol, then other names in the singular, in small letters and without dots. */
const NAMES = new Map(
  [
    'inch|in|inches|"',
    "ft|foot|feet|'",
    "yd|yard",
    "mil|thou",
    "um|micron",
    "floz|fl oz|fl ounce|fluid ounce|fluid oz",
    "gal|gallon|us gallon|us gal",
    "quart|qt",
    "pint|pt",
    "tbsp|tablespoon|tbs",
    "tsp|teaspoon",
    "L|ltr",
    "mL|cc",
    "kg|kilo",
    "t|tonne",
    "lb|pound",
    "oz|ounce",
    "s|sec|second",
    "min|minute",
    "h|hr|hour",
    "day|d",
    "°C|c|deg c|degree c|degrees c|° c|celsius|centigrade",
    "°F|f|deg f|degree f|degrees f|° f|fahrenheit",
    "K|kelvin",
    "%|percent|per cent|pct|% rh",
    "hp|horsepower",
    "inHg|in hg",
  ].flatMap((line) => {
    const [symbol = "", ...names] = line.split("|");
    return names.map((name) => [name, symbol] as const);
  }),
);
const PREFIXES = { milli: "m", centi: "c", micro: "u", kilo: "k", hecto: "h", mega: "M", "": "" };
const METRIC = { met: "m", lit: "L", gram: "g", pascal: "Pa", joule: "J", newton: "N", watt: "W" };
const LONG =
  /^(milli|centi|micro|kilo|hecto|mega)?(?:(met|lit)(?:re|er)|(gram)(?:me)?|(pascal|joule|newton|watt))$/;

/** Capitals that make another unit: a megagram is no milligram. */
const OTHER_UNIT = /^(M[gmlL]|mPa)$/;

/** As the language writes it: `sq ft` is `ft2`, `oz per sq yd` is `oz/yd2`. Undefined where it is no unit. */
export function spelledUnit(typed: string): string | undefined {
  const [, unit = "", more = ""] = /^(.*?)( apart| by (?:mass|weight|volume))?$/.exec(typed.trim()) ?? [];
  const parts = unit.split(/ ?\/ ?| per /).map(simple);
  return parts.every((part) => part !== undefined)
    ? parts.join("/") + more.replace("weight", "mass")
    : undefined;
}

function simple(typed: string): string | undefined {
  const text = typed.toLowerCase().replaceAll(".", "").trim();
  const one = text.replace(/s$/, "");
  const named = NAMES.get(text) ?? NAMES.get(one) ?? [typed, text, one].find(isUnit);
  if (named !== undefined) return OTHER_UNIT.test(typed) ? undefined : named;
  const long = LONG.exec(one);
  if (long !== null) {
    const [, prefix = "", ...names] = long;
    const name = names.find((one) => one !== undefined) as keyof typeof METRIC;
    return PREFIXES[prefix as keyof typeof PREFIXES] + METRIC[name];
  }
  const power = /^(?:(square|sq|cubic|cu) ?(.+)|(.+?) ?\^?([23²³]))$/.exec(text);
  if (power !== null) {
    const [, word, of, base, digit] = power;
    const unit = simple(of ?? base ?? "");
    const raised = `${unit}${word === undefined ? digit : word.startsWith("s") ? "2" : "3"}`;
    return unit !== undefined && isUnit(raised) ? raised : undefined;
  }
  return OTHER_UNIT.test(typed)
    ? undefined
    : unitSymbols().find((symbol) => [text, one].includes(symbol.toLowerCase()));
}

const isUnit = (text: string): boolean => "symbol" in readUnit({ text, apart: false });
