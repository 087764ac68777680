// What to measure: a panel with a hole, and a caliper at the one place that a question is about. It is a sign, not to scale.
import { type Drawn, type Mark, type Point, area, box, breakLine, dimensionLine, line, oval, text } from "./marks.ts";
import type { Sheet } from "./sheet.ts";

/** Places that can be shown; anything else, and `none`, has no drawing. */
export function drawAsk(place: string | undefined, { say }: Sheet): Drawn | undefined {
  switch (place) {
    case "thickness": return sign(say("draw.ask-thickness"), [...section(true), ...caliperDown(12, 16, 26, 5)]);
    case "depth": return sign(say("draw.ask-depth"), [...section(false), ...caliperDown(44, 16, 22, 0)]);
    case "run": return sign(say("draw.ask-run"), [...section(true), ...measured(22, 38, 12)]);
    case "gap": return sign(say("draw.ask-gap"), [...gap(), ...measured(40, 48, 12)]);
    case "hole-long": return sign(say("draw.ask-hole-long"), [...plan(), ...measured(27, 61, 7, 20)]);
    case "hole-short": return sign(say("draw.ask-hole-short"), [...plan(), ...measuredDown(10, 30, 72, 44)]);
    case "edge-distance": return sign(say("draw.ask-edge-distance"), [...plan(true), ...measured(50, 78, 34, 20)]);
    case "temperature": return sign(say("draw.ask-temperature"), [...section(true), ...probe(70, 16)]);
    default: return undefined;
  }
}

const sign = (says: string, marks: readonly Mark[]): Drawn => ({ width: 88, height: 40, marks, notes: [], describes: [says] });

/** From the side: the cut with its bevels, through or not. */
function section(through: boolean): readonly Mark[] {
  const [top, foot] = [16, 26];
  const cut = through ? foot : 22;
  if (!through) return [area([[4, top], [28, top], [38, cut], [50, cut], [60, top], [84, top], [84, foot], [4, foot]], "panel", "outline"), ...ends(top, foot)];
  return [...[-1, 1].map((side) => area([[44 + side * 40, top], [44 + side * 22, top], [44 + side * 6, cut], [44 + side * 6, foot], [44 + side * 40, foot]], "panel", "outline")), ...ends(top, foot)];
}

const ends = (top: number, foot: number): readonly Mark[] => [4, 84].flatMap((x) => [area([[x - 2.6, top - 2], [x, top - 2], ...breakLine(x, top, foot, 0).slice(1, -1), [x, foot + 2], [x - 2.6, foot + 2]].map(([px, py]) => [x === 84 ? 2 * 84 - px! : px!, py!] as Point), "paper", "none"), line(breakLine(x, top, foot).map(([px, py]): Point => [x === 84 ? 2 * 84 - px : px, py]), "hair")]);

/** Two parts with a joint between them. */
const gap = (): readonly Mark[] => [box(4, 16, 36, 10, "panel"), box(48, 16, 36, 10, "panel"), ...ends(16, 26)];

/** From above: the panel with an oval of damage, and an edge on the right where that matters. */
function plan(edge = false): readonly Mark[] {
  const right = edge ? 78 : 84;
  return [
    area([[6, 4], [right, 4], [right, 37], [6, 37]], "paper", edge ? "hair" : "hair"),
    ...(edge ? [line([[78, 2], [78, 39]], "outline"), line([[79.2, 2], [79.2, 39]], "hair")] : []),
    oval(edge ? 34 : 44, 20, edge ? 16 : 17, 10, "void", "outline"),
  ];
}

/** A length along, drawn in the accent, with extension lines up or down to what it measures. */
function measured(from: number, to: number, at: number, reach?: number): readonly Mark[] {
  return [...[from, to].map((x) => line([[x, at + (reach === undefined ? 4 : at < reach ? 13 : -14)], [x, at + (reach === undefined || at < reach ? -1.5 : 1.5)]], "accent")), ...dimensionLine(from, to, at, "x").map(accented)];
}

const measuredDown = (from: number, to: number, at: number, reach: number): readonly Mark[] =>
  [...[from, to].map((y) => line([[reach, y], [at + 1.5, y]], "accent")), ...dimensionLine(from, to, at, "y").map(accented)];

/** The jaws of a caliper over a height: above and below, with its bar to the left. */
function caliperDown(x: number, top: number, foot: number, over: number): readonly Mark[] {
  const jaw = (at: number, dy: number): Mark => area([[x, at], [x - 3.2, at + dy * 1.2], [x - 3.2, at + dy * 3.4], [x + 1.4, at + dy * 3.4], [x + 1.4, at + dy * 0.2]], "arrow", "accent");
  if (over === 0) {
    // Depth: a bar across the faces and a pin down to the bottom.
    return [box(26, top - 3.4, 36, 2.4, "paper", "accent"), line([[x, top - 3.4], [x, foot]], "accent"), line([[x - 0.6, top - 3.4], [x - 0.6, foot - 0.8], [x, foot], [x + 0.6, foot - 0.8], [x + 0.6, top - 3.4]], "accent"), ...dimensionLine(top, foot, 66, "y").map(accented), line([[52, foot], [67.5, foot]], "accent"), line([[61, top], [67.5, top]], "accent")];
  }
  return [jaw(top, -1), jaw(foot, 1), ...dimensionLine(top, foot, x + 6, "y").map(accented)];
}

function probe(x: number, top: number): readonly Mark[] {
  return [oval(x, top - 1.2, 1.2, 1.2, "arrow", "accent"), line([[x, top - 2], [x + 7, top - 11]], "accent"), line([[x - 3, top - 12.2], [x - 2, top - 10]], "none"), box(x + 5, top - 14.5, 9, 4.2, "paper", "accent"), text(x + 9.5, top - 11.3, "°", 3, "middle", { accent: true })];
}

const accented = (mark: Mark): Mark => (mark.is === "line" ? { ...mark, ink: "accent" } : mark);
