// What a book's cup says about a mix, and the sums at the cup: how much hardener goes to the resin that is
// really in it, the other way about, whether that is what the book allows, and into how many cups it is split
// so that each is used before it sets. All in SI.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import { measureOf } from "./mix-amounts.ts";
import type { Measure } from "./mix-amounts.ts";

/** One part of a mix as the card gives it for one cup. */
export interface Part {
  readonly role: "resin" | "filler" | "hardener";
  /** The value's name in the book. */
  readonly name: string;
  readonly measure: Measure;
  /** In kilograms, cubic metres or metres. */
  readonly amount: number;
  /** As the card writes it. */
  readonly text: string;
  /** kg/m3, where the book gives it. */
  readonly density?: number;
}

export interface Mix {
  /** Stays the same while the book's line does. */
  readonly id: string;
  readonly title: string;
  readonly base: Part;
  readonly hardener: Part;
  /** Metres of bead that the card's hardener makes, where it comes from a tube. */
  readonly bead?: number;
  /** What else goes into the cup. */
  readonly filler?: Part;
  /** Cups that the card splits the work into. */
  readonly cups: number;
  /** The most of the base that the book allows in one cup, in its measure. */
  readonly largest?: number;
  /** Seconds in which a cup has to be used. */
  readonly working?: number;
  /** How much of the base is used up in a second, in its measure. */
  readonly rate?: number;
  /** The book's own limits: hardener per base, by mass or by volume. */
  readonly least?: Limit;
  readonly most?: Limit;
}

interface Limit {
  readonly share: number;
  readonly by: Measure;
  readonly text: string;
}

/**
 * The mixes of a job's cups, in the order of the book; a cup whose two parts are not both known amounts is
 * none.
 */
export function mixesOf(pictures: readonly PictureShown[]): readonly Mix[] {
  return pictures.flatMap((picture) => {
    if (picture.shape !== "cup") return [];
    const of = (argument: string) => picture.values.find((value) => value.argument === argument);
    const resin = partOf("resin", of("resin"), of("resin-density"));
    const filler = partOf("filler", of("filler"), of("filler-density"));
    const hardener = partOf("hardener", of("hardener"), of("hardener-density"));
    const base = resin ?? filler;
    if (base === undefined || hardener === undefined) return [];
    const cups = of("cups")?.si;
    const largest = partOf(base.role, of("largest"), undefined);
    const pace = of("pace");
    // Used up in the measure of the base (`20 g/min`); another, such as an area, says nothing about a cup.
    const usable =
      pace !== undefined && measureOf(pace.unit?.split("/")[0] ?? "") === base.measure ? pace.si : undefined;
    const mix: Mix = {
      id: picture.id,
      title: picture.title,
      base,
      hardener,
      ...(resin !== undefined && filler !== undefined ? { filler } : {}),
      cups: cups !== undefined && cups >= 1 && cups <= 1000 ? Math.ceil(cups - 1e-9) : 1,
      ...positive(
        "largest",
        largest && inMeasure(largest.amount, largest.measure, base.measure, base.density),
      ),
      ...positive("working", of("working")?.si),
      ...positive("rate", usable),
      ...positive("bead", of("bead")?.si),
      ...limit("least", of("least"), base, hardener),
      ...limit("most", of("most"), base, hardener),
    };
    return [mix];
  });
}

function partOf(
  role: Part["role"],
  value: PictureValue | undefined,
  density: PictureValue | undefined,
): Part | undefined {
  if (value?.state !== "known" || value.si === undefined || !(value.si > 0)) return undefined;
  const measure = measureOf(value.unit ?? "");
  if (measure === undefined) return undefined;
  return {
    role,
    name: value.name,
    measure,
    amount: value.si,
    text: value.text,
    ...positive("density", density?.si),
  };
}

const positive = <Key extends string>(
  key: Key,
  value: number | undefined,
): { readonly [K in Key]?: number } =>
  (value !== undefined && value > 0 && Number.isFinite(value) ? { [key]: value } : {}) as {
    readonly [K in Key]?: number;
  };

/** A limit is a share (`2 % by mass`), or an amount of hardener for the card's cup. */
function limit<Key extends "least" | "most">(
  key: Key,
  value: PictureValue | undefined,
  base: Part,
  hardener: Part,
): { readonly [K in Key]?: Limit } {
  if (value?.state !== "known" || value.si === undefined || !(value.si >= 0)) return {};
  const amount = measureOf(value.unit ?? "");
  const by: Measure = amount ?? (/by volume/.test(`${value.unit} ${value.text}`) ? "volume" : "mass");
  if (amount !== undefined && (amount !== hardener.measure || base.measure !== hardener.measure)) return {};
  const found: Limit = {
    share: amount === undefined ? value.si : value.si / base.amount,
    by,
    text: value.text,
  };
  return { [key]: found } as unknown as { readonly [K in Key]?: Limit };
}

/** Whether so much of the base is more than the book allows in one cup. */
export const isTooMuch = (mix: Mix, base: number): boolean =>
  mix.largest !== undefined && base > Math.max(mix.largest, mix.base.amount) * (1 + 1e-9);

/** Hardener per base of the card, in the measures that the two have. */
const proportion = (mix: Mix): number => mix.hardener.amount / mix.base.amount;

/** The hardener that so much of the base wants, both in their own measures. */
export const hardenerFor = (mix: Mix, base: number): number => base * proportion(mix);
/** The base that so much hardener wants. */
export const baseFor = (mix: Mix, hardener: number): number => hardener / proportion(mix);
/** What else goes to so much of the base. */
export const fillerFor = (mix: Mix, base: number): number | undefined =>
  mix.filler === undefined ? undefined : (base * mix.filler.amount) / mix.base.amount;

/**
 * `amount` of one measure in another; undefined where that needs a density that nobody gave, or a bead's
 * thickness.
 */
export function inMeasure(
  amount: number,
  from: Measure,
  to: Measure,
  density: number | undefined,
): number | undefined {
  if (from === to) return amount;
  if (density === undefined) return undefined;
  if (from === "mass" && to === "volume") return amount / density;
  if (from === "volume" && to === "mass") return amount * density;
  return undefined;
}

/** What stands in the cup against the card and the book's limits. */
export interface Judged {
  /** Hardener per base against the card's: 1 is as the card says. */
  readonly against: number;
  /** What to put in so that the cup is as the card says: at most one of them is above 0. */
  readonly addBase: number;
  readonly addHardener: number;
  /** `label`: the book gives no limits, or they cannot be held against these measures. */
  readonly limits: "within" | "over" | "under" | "label";
}

/**
 * A cup that holds both already. Amounts within a thousandth of the card count as the card's: no scale in a
 * shop shows less.
 */
export function judgeCup(mix: Mix, base: number, hardener: number): Judged {
  const wanted = hardenerFor(mix, base);
  const against = hardener / wanted;
  const close = Math.abs(against - 1) <= 1e-3;
  return {
    against,
    addBase: !close && hardener > wanted ? baseFor(mix, hardener) - base : 0,
    addHardener: !close && hardener < wanted ? wanted - hardener : 0,
    limits: limitsOf(mix, base, hardener),
  };
}

function limitsOf(mix: Mix, base: number, hardener: number): Judged["limits"] {
  if (mix.least === undefined && mix.most === undefined) return "label";
  const share = ({ by }: Limit): number | undefined => {
    const of = inMeasure(base, mix.base.measure, by, mix.base.density);
    const with_ = inMeasure(hardener, mix.hardener.measure, by, mix.hardener.density);
    return of === undefined || with_ === undefined ? undefined : with_ / of;
  };
  const high = mix.most && share(mix.most);
  const low = mix.least && share(mix.least);
  if (high !== undefined && high > mix.most!.share * (1 + 1e-9)) return "over";
  if (low !== undefined && low < mix.least!.share * (1 - 1e-9)) return "under";
  return high === undefined && low === undefined ? "label" : "within";
}

export interface Batches {
  readonly count: number;
  /** In each cup, in the measures of the parts. */
  readonly base: number;
  readonly hardener: number;
  readonly filler?: number;
  /**
   * Fewest cups with which each is used up before it sets; absent where the book does not say how fast it is
   * used.
   */
  readonly fewest?: number;
}

/**
 * The card's whole amount split into cups: as many as the card says, more where a cup would set before it is
 * used up, or as many as a person wants beyond that.
 */
export function batchesOf(mix: Mix, wish?: number): Batches {
  const all = mix.base.amount * mix.cups;
  const atOnce = mix.rate !== undefined && mix.working !== undefined ? mix.rate * mix.working : undefined;
  const fewest = atOnce === undefined ? undefined : Math.max(1, Math.ceil(all / atOnce - 1e-9));
  const count = Math.min(1000, Math.max(wish ?? mix.cups, fewest ?? 1, wish === undefined ? mix.cups : 1));
  const base = all / count;
  const filler = fillerFor(mix, base);
  return {
    count,
    base,
    hardener: hardenerFor(mix, base),
    ...(filler === undefined ? {} : { filler }),
    ...(fewest === undefined ? {} : { fewest }),
  };
}
