// What every drawing has in common: the sheet that it is drawn on, and how it reads the values of a picture.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import type { Say } from "../words/words.ts";

/**
 * A sheet's width in mm on paper and the size of its writing. Paper and wide screens have the one, a
 * telephone the other.
 */
export interface Sheet {
  readonly width: number;
  readonly size: number;
  readonly say: Say;
}

export const wideSheet = (say: Say): Sheet => ({ width: 170, size: 3.3, say });
export const narrowSheet = (say: Say): Sheet => ({ width: 80, size: 3.3, say });

// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
export const valueOf = (picture: PictureShown, argument: string): PictureValue | undefined =>
  picture.values.find((value) => value.argument === argument);

/** A length in mm that can be drawn: known, and not below zero. */
export function lengthOf(picture: PictureShown, argument: string): number | undefined {
  const si = valueOf(picture, argument)?.si;
  return si === undefined || !Number.isFinite(si) || si < 0 ? undefined : si * 1000;
}

/** As it is written; what is not known yet says so. */
export function textOf(picture: PictureShown, argument: string, say: Say): string {
  const value = valueOf(picture, argument);
  return value === undefined ? "" : value.state === "known" ? value.text : say("draw.unknown");
}

/** Arguments that the book gives and that have no value yet, each with what it waits for. */
const openArguments = (picture: PictureShown): readonly PictureValue[] =>
  picture.values.filter(
    (value) => value.state !== "known" && value.argument !== "marks" && value.argument !== "steps",
  );

/** One sentence for each value that is not known. */
export const openNotes = (
  picture: PictureShown,
  say: Say,
  named: (argument: string) => string,
): readonly string[] =>
  openArguments(picture).map((value) =>
    say("draw.open", { what: named(value.argument), why: shownText(value, say) }),
  );
