// Reads a number as people type it: `12.5`, `12,5`, `1½`, `1 3/8`, `1-3/8`, `1,250.5`. Every entry of the
// program reads numbers here, so no two of them can disagree about a comma.

export type TypedNumber =
  /** `text`: as the book's language writes it. */
  | { readonly is: "number"; readonly value: number; readonly text: string }
  /** A comma before three digits: thousands to some, a decimal sign to others. */
  | { readonly is: "two-ways"; readonly whole: string; readonly decimal: string }
  | { readonly is: "over-zero" }
  | { readonly is: "none" };

/** Signs of one meaning as one sign: fractions, dashes, quotes, kinds of blanks. */
export const plainSigns = (typed: string): string =>
  typed
    .replace(/º/g, "°")
    .replace(/(\d)(?=[¼-¾⅐-⅞])/g, "$1 ")
    .normalize("NFKC")
    .replace(/⁄/g, "/")
    .replace(/[−–‐‑]/g, "-")
    .replace(/[′’‘´`]/g, "'")
    .replace(/[”“]|''/g, '"')
    .replace(/\s+/g, " ")
    .trim();

export function readTypedNumber(typed: string): TypedNumber {
  const text = plainSigns(typed).replace(/^\+/, "");
  const fraction = /^(-?)(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (fraction) {
    const [, sign, ones, top, bottom] = fraction;
    if (Number(bottom) === 0) return { is: "over-zero" };
    const value = Number(ones ?? 0) + Number(top) / Number(bottom);
    return {
      is: "number",
      value: sign === "-" ? -value : value,
      text: `${sign}${ones === undefined ? "" : `${ones} `}${top}/${bottom}`,
    };
  }
  if (/^-?[1-9]\d{0,2},\d{3}$/.test(text))
    return { is: "two-ways", whole: text.replace(",", ""), decimal: text.replace(",", ".") };
  const decimal = grouped(text, ",", ".") ?? grouped(text, ".", ",") ?? text.replace(",", ".");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(decimal)) return { is: "none" };
  const written = decimal.replace(/^(-?)\./, "$10.").replace(/\.$/, "");
  return { is: "number", value: Number(written), text: written };
}

/** Digits in groups of three that can be read in one way only, without the signs that part the groups. */
function grouped(text: string, parts: string, point: string): string | undefined {
  const group = `\\${parts}\\d{3}`;
  const decimals = `\\${point}\\d+`;
  return new RegExp(`^-?[1-9]\\d{0,2}${group}((${group})+(${decimals})?|${decimals})$`).test(text)
    ? text.replaceAll(parts, "").replace(point, ".")
    : undefined;
}
