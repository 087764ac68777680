// How wide a text of a drawing is, so that labels can be placed without a screen. Widths are those of the
// narrow face of the look, taken on the wide side; a letter that is not in the table counts as a broad one.

/** Width in hundredths of the size, by letter; figures are all of one width in the drawings. */
const WIDTHS: Readonly<Record<number, string>> = {
  22: " íl’'",
  27: "ijI,.;()|",
  31: ':“”"',
  35: "tf",
  38: "r-°",
  42: "/×z–",
  47: "yvs",
  50: "xack÷+±áZ",
  53: "eguéóbdhnoFLñú=",
  55: "pqEJSTY0123456789",
  58: "PQACGRVXBDKO",
  62: "HUN",
  69: "Mw",
  78: "…mW",
  86: "%½",
};
const table = new Map<string, number>(
  Object.entries(WIDTHS).flatMap(([width, letters]) =>
    [...letters].map((letter) => [letter, Number(width) / 100] as const),
  ),
);

export function textWidth(text: string, size: number, strong = false): number {
  let width = 0;
  for (const letter of text) width += table.get(letter) ?? (letter > "⺀" ? 1.05 : 0.8);
  return width * size * (strong ? 1.06 : 1);
}

/** The text, or as much of its beginning as fits with a mark that more was there. */
export function cropped(text: string, size: number, room: number, strong = false): string {
  if (textWidth(text, size, strong) <= room) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join("")}…`, size, strong) > room) letters.pop();
  return letters.length === 0 ? "" : `${letters.join("").trimEnd()}…`;
}

/**
 * Lines of words within a room; a word too long for a line is cropped. At most `most` lines, the last one
 * cropped.
 */
export function wrapped(text: string, size: number, room: number, most = 2): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((one) => one !== "")) {
    const last = lines.at(-1);
    if (last !== undefined && (lines.length === most || textWidth(`${last} ${word}`, size) <= room))
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map((one) => cropped(one, size, room));
}
