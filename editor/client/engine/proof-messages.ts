// What the bench asks of the worker for long proofs, and what it is told while they go on: plain data only.
import type { MutationTestView, VerificationView } from "../../../core/view.ts";

export type ProofWish =
  /** Goes over to this text. What the text before had proved, and the edit cannot have touched, is kept. */
  | {
      readonly does: "prove";
      readonly what: "standing" | "guard";
      readonly text: string;
      readonly shelf?: readonly string[];
    }
  | { readonly does: "stop" };

/** `text` is the text that the view is about: a word about an older text is known as such. */
export type ProofWord =
  | {
      readonly is: "standing";
      readonly text: string;
      readonly view: VerificationView;
      readonly running: boolean;
    }
  | {
      readonly is: "guard";
      readonly text: string;
      readonly view: MutationTestView;
      readonly running: boolean;
    };

/** How a proof stands on the bench: the last view, the text that it is about, and whether work goes on. */
export interface Proving<View> {
  readonly text: string;
  readonly view: View;
  readonly running: boolean;
}
