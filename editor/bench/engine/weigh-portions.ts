// Two texts weighed against each other in portions, so that the worker hears between two of them that it shall stop or weigh another pair.
import { compareRules, readBook, weigh } from "../../../engine/index.ts";
import type { Portioned } from "../../../engine/index.ts";
import type { Answers, RuleChangeView, WeighView } from "../../../core/view.ts";

export interface WeighWish {
  readonly before: string;
  readonly after: string;
  /** Jobs of a log, and how many are made up beside them. */
  readonly logged: readonly { readonly name: string; readonly answers: Answers }[];
  readonly spread: number;
  /** Texts of the books that these two stand on. */
  readonly shelf?: readonly string[];
}

export type WeighCall = { readonly does: "weigh"; readonly id: number; readonly wish: WeighWish } | { readonly does: "stop" };

/** `id` is that of the wish that the word answers. */
export interface WeighWord {
  readonly id: number;
  readonly rules: readonly RuleChangeView[];
  readonly view?: WeighView;
  readonly running: boolean;
}

/** One portion lasts about so long, and progress is told so often at most, in milliseconds. */
const portion = 60;
const tellEvery = 300;

/** `later` runs a function once messages that have come in meanwhile are heard; `now` is a clock in milliseconds. */
export function weighings(tell: (word: WeighWord) => void, later: (act: () => void) => void, now: () => number): (call: WeighCall) => void {
  let work: { readonly id: number; readonly rules: readonly RuleChangeView[]; readonly weighing: Portioned<WeighView> } | undefined;
  let toldAt = -Infinity;
  const say = (running: boolean): void => {
    if (work === undefined) return;
    toldAt = now();
    tell({ id: work.id, rules: work.rules, view: work.weighing.view(), running });
  };
  const goOn = (of: typeof work): void => {
    if (of === undefined || of !== work) return;
    const end = now() + portion;
    let done = false;
    do done = of.weighing.advance(1); while (!done && now() < end);
    if (done || now() - toldAt >= tellEvery) say(!done);
    if (!done) later(() => goOn(of));
  };
  return (call) => {
    switch (call.does) {
      case "stop": { const stopped = work; if (stopped !== undefined) say(false); work = undefined; return; }
      case "weigh": {
        const { before, after, logged, spread, shelf } = call.wish;
        const [old, fresh] = [readBook(before, undefined, shelf), readBook(after, undefined, shelf)];
        const rules = compareRules(old, fresh);
        // What is written otherwise is told at once; making up the spread takes a moment.
        tell({ id: call.id, rules, running: true });
        const { id } = call;
        work = undefined;
        later(() => {
          if (work !== undefined) return;
          work = { id, rules, weighing: weigh(old, fresh, { logged, spread }) };
          say(true);
          goOn(work);
        });
        return;
      }
    }
  };
}
