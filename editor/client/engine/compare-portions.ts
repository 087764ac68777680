// Two texts weighed against each other in portions, so that the worker hears between two of them that it
// shall stop or weigh another pair.
import { compareRules, readBook, compareBooks } from "../../../engine/index.ts";
import type { PortionedComparison } from "../../../engine/index.ts";
import type { Answers, RuleChangeView, ComparisonView } from "../../../core/view.ts";

export interface WeighWish {
  readonly before: string;
  readonly after: string;
  /** Jobs of a log, and how many are made up beside them. */
  readonly logged: readonly { readonly name: string; readonly answers: Answers }[];
  readonly spread: number;
  /** Texts of the books that these two stand on. */
  readonly shelf?: readonly string[];
}

export type WeighCall =
  | { readonly does: "weigh"; readonly id: number; readonly wish: WeighWish }
  | { readonly does: "stop" }
  | { readonly does: "go on" };

/** `id` is that of the wish that the word answers. */
export interface WeighWord {
  readonly id: number;
  readonly rules: readonly RuleChangeView[];
  /**
   * Of the jobs that moved it has those that were not told yet, from place `from` on: a page that was sent
   * all ten thousand again and again would stand still.
   */
  readonly view?: ComparisonView;
  readonly from: number;
  readonly running: boolean;
}

/** One portion lasts about so long, and progress is told so often at most, in milliseconds. */
const portion = 60;
const tellEvery = 300;

/**
 * `later` runs a function once messages that have come in meanwhile are heard; `now` is a clock in
 * milliseconds.
 */
export function comparisons(
  tell: (word: WeighWord) => void,
  later: (act: () => void) => void,
  now: () => number,
): (call: WeighCall) => void {
  let work:
    | {
        readonly id: number;
        readonly rules: readonly RuleChangeView[];
        readonly begin: () => PortionedComparison;
        weighing?: PortionedComparison;
        told: number;
      }
    | undefined;
  let toldAt = -Infinity;
  /** Counts beginnings and ends, so that a portion that was due before a stop is not done after it. */
  let turn = 0;
  const say = (running: boolean): void => {
    if (work === undefined) return;
    toldAt = now();
    const from = work.told;
    const view = work.weighing?.view(from);
    work.told += view?.moved.length ?? 0;
    tell({ id: work.id, rules: work.rules, ...(view === undefined ? {} : { view }), from, running });
  };
  const goOn = (mine: number): void => {
    if (work === undefined || mine !== turn) return;
    if (work.weighing === undefined) {
      work.weighing = work.begin();
      say(true);
    }
    const end = now() + portion;
    let done = false;
    do done = work.weighing.advance(1);
    while (!done && now() < end);
    if (done || now() - toldAt >= tellEvery) say(!done);
    if (!done) later(() => goOn(mine));
  };
  const start = (): void => {
    turn += 1;
    const mine = turn;
    later(() => goOn(mine));
  };
  return (call) => {
    switch (call.does) {
      case "stop": {
        turn += 1;
        say(false);
        return;
      }
      case "go on": {
        say(true);
        start();
        return;
      }
      case "weigh": {
        const { before, after, logged, spread, shelf } = call.wish;
        const [old, fresh] = [readBook(before, undefined, shelf), readBook(after, undefined, shelf)];
        work = {
          id: call.id,
          rules: compareRules(old, fresh),
          begin: () => compareBooks(old, fresh, { logged, spread }),
          told: 0,
        };
        // What is written otherwise is told at once; making up the spread takes a moment.
        say(true);
        start();
        return;
      }
    }
  };
}
