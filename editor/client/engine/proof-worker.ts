// The worker for long proofs, apart from the one that answers the hand that types.
import { proofs } from "./proof-portions.ts";
import type { ProofWish } from "./proof-messages.ts";

const hear = proofs(
  (word) => postMessage(word),
  (act) => {
    setTimeout(act, 0);
  },
  () => performance.now(),
);
addEventListener("message", (event: MessageEvent<ProofWish>) => hear(event.data));
