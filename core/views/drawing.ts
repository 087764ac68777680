// What drawings of a job are made from: values in SI with their texts, maps and charts.
import type { Shown } from "./job.ts";

/**
 * A drawing of one job: what it shows, by the names of its arguments. What is not known yet is said so in the
 * drawing. A cup has `marks` besides, one row for each part: `part`, `amount`, `together`, `volume`,
 * `filled`, `height`, as far as they follow. A time line has `steps`: `step`, `says`, `from`, `takes`,
 * `waits`; unknown while the steps are withheld. A map and a chart are drawn from `outcomeMap` and
 * `chartDrawn`, asked for apart since they cost many jobs.
 */
export interface PictureShown {
  readonly id: string;
  readonly shape: string;
  /** Empty where the book gives none. */
  readonly title: string;
  readonly values: readonly PictureValue[];
}

export interface PictureValue extends Shown {
  /** The argument's name, e.g. `thickness`; `name` is the value's own, or the rule as written. */
  readonly argument: string;
  /** In SI: metres, kilograms, seconds, kelvin; absent for words, lists and what is not known. */
  readonly si?: number;
  /** The rows of a list, each column in SI with its text beside it. */
  readonly rows?: readonly Readonly<Record<string, { readonly si: number; readonly text: string }>>[];
}

/**
 * One axis of a map or a chart: its ends and the job's own place in SI, with round numbers to write along it.
 */
export interface DrawnAxis {
  readonly name: string;
  /** The question of an ask, the title of a figure; its name where there is none. */
  readonly title: string;
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly { readonly si: number; readonly text: string }[];
  readonly at?: { readonly si: number; readonly text: string };
}

/** Which word comes out for every pair of two answers, all other answers being the job's. */
export interface OutcomeMap {
  readonly across: DrawnAxis;
  readonly up: DrawnAxis;
  readonly shows: string;
  readonly title: string;
  /** Words that come out, in the kind's order. */
  readonly words: readonly string[];
  /** Fields that fill the map; ends in SI; `word` is a place in `words`, -1 where nothing comes out yet. */
  readonly fields: readonly {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
    readonly word: number;
    readonly stopped: boolean;
  }[];
  /** What comes out for the job itself: a place in `words`, or -1. */
  readonly here: number;
}

/** A chart over one number as a line, with the job's own point; other conditions are as in the job. */
export interface DrawnChart {
  readonly across: DrawnAxis;
  readonly up: DrawnAxis;
  readonly title: string;
  /** Stretches of the line, in SI; level ones for bands. */
  readonly lines: readonly (readonly { readonly x: number; readonly y: number }[])[];
  /** Rows as points, where rows are points. */
  readonly points: readonly { readonly x: number; readonly y: number; readonly says: string }[];
  /** Conditions held as they are in the job: "resin-type polyester". */
  readonly held: readonly string[];
}
