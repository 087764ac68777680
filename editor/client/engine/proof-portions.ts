// Long proofs in portions: between two of them the worker hears whether a newer text has come, or that it
// shall stop.
import { mutationTestOf, readBook, verificationOf } from "../../../engine/index.ts";
import type { Book, Portioned } from "../../../engine/index.ts";
import type { MutationTestView, VerificationView } from "../../../core/view.ts";
import type { ProofWish, ProofWord } from "./proof-messages.ts";

/**
 * One portion lasts about so long, in milliseconds; a single step of a proof that takes longer is not cut.
 */
const portion = 50;
/** Progress is told this often at most, in milliseconds; the last word always. */
const tellEvery = 250;
/**
 * Boxes of jobs looked at before the clock is read again; beginning a goal counts as some boxes, so it must
 * not be small.
 */
const boxesAtATime = 120;

type Work =
  | { readonly is: "standing"; readonly text: string; readonly proof: Portioned<VerificationView> }
  | { readonly is: "guard"; readonly text: string; readonly proof: Portioned<MutationTestView> };

/**
 * `later` runs a function once messages that have come in meanwhile are heard; `now` is a clock in
 * milliseconds.
 */
export function proofs(
  tell: (word: ProofWord) => void,
  later: (act: () => void) => void,
  now: () => number,
): (wish: ProofWish) => void {
  let book: Book | undefined;
  let before: Portioned<VerificationView> | undefined;
  let work: Work | undefined;
  let running = false;
  let waiting = false;
  let toldAt = -Infinity;

  const say = (): void => {
    if (work === undefined) return;
    toldAt = now();
    switch (work.is) {
      case "standing":
        tell({ is: "standing", text: work.text, view: work.proof.view(), running });
        return;
      case "guard":
        tell({ is: "guard", text: work.text, view: work.proof.view(), running });
        return;
    }
  };
  const goOn = (): void => {
    waiting = false;
    if (!running || work === undefined) return;
    const end = now() + portion;
    let done = false;
    // A little at a time, and at least once: how long one box or one change takes is not known beforehand.
    do done = work.proof.advance(work.is === "standing" ? boxesAtATime : 1);
    while (!done && now() < end);
    if (done) running = false;
    if (done || now() - toldAt >= tellEvery) say();
    wait();
  };
  const wait = (): void => {
    if (!running || waiting) return;
    waiting = true;
    later(goOn);
  };
  const begin = (what: "standing" | "guard", text: string, shelf: readonly string[]): void => {
    if (work === undefined || work.text !== text || work.is !== what) {
      book = readBook(text, book, shelf);
      if (what === "guard") work = { is: what, text, proof: mutationTestOf(book) };
      else {
        before = verificationOf(book, before);
        work = { is: what, text, proof: before };
      }
    }
    running = true;
    say();
    wait();
  };

  return (wish) => {
    switch (wish.does) {
      case "prove":
        begin(wish.what, wish.text, wish.shelf ?? []);
        return;
      case "stop":
        running = false;
        say();
        return;
    }
  };
}
