// Reads and writes numbers as people type them at a panel: `12.5`, `12,5`, `3/8`, `1 3/8`.

export type Typed = { readonly value: number; readonly text: string } | { readonly says: string };

/** The number, and the text in which the book's language writes it; or a sentence that says what to type instead. */
export function readNumber(typed: string): Typed {
  const text = typed.trim().replace(/\u2212|\u2013/g, "-").replace(/\s*\/\s*/g, "/").replace(/\s+/g, " ");
  if (text === "") return { says: "Type a number first." };
  const whole = /^(-?)(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  if (whole) {
    const [, sign, ones = "0", top = "", bottom = ""] = whole;
    if (Number(bottom) === 0) return { says: "A fraction cannot have 0 below the line." };
    const value = Number(ones) + Number(top) / Number(bottom);
    return { value: sign === "-" ? -value : value, text };
  }
  if (/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) {
    return { says: `“${text}” can be read in two ways. Type ${text.replaceAll(",", "")} or, if a decimal was meant, ${text.replace(",", ".")}.` };
  }
  const decimal = text.replace(/^(-?\d*),(\d+)$/, "$1.$2");
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(decimal)) {
    return { says: `“${text}” is not a number. Type it like 12.5 or 1 3/8.` };
  }
  return { value: Number(decimal), text: decimal.replace(/^(-?)\./, "$10.").replace(/\.$/, "") };
}

/** Digits that a person can read back: at most `digits` that count, no trailing zeros. */
export function writeNumber(value: number, digits = 12): string {
  return String(Number(value.toPrecision(digits)));
}

/** A length in inches to the nearest sixteenth: `1 3/8`, `5/16`, `2`. */
export function writeSixteenths(value: number): string {
  const sixteenths = Math.round(Math.abs(value) * 16);
  const sign = value < 0 && sixteenths > 0 ? "-" : "";
  const ones = Math.floor(sixteenths / 16);
  const part = sixteenthText(sixteenths % 16);
  if (part === "") return `${sign}${ones}`;
  return ones === 0 ? `${sign}${part}` : `${sign}${ones} ${part}`;
}

/** `3/8` for 6; "" for 0. */
export function sixteenthText(sixteenths: number): string {
  if (sixteenths === 0) return "";
  let top = sixteenths;
  let bottom = 16;
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return `${top}/${bottom}`;
}
