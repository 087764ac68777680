// The worker that weighs two texts, apart from the one that answers the hand that types.
import { comparisons } from "./compare-portions.ts";
import type { WeighCall } from "./compare-portions.ts";

const hear = comparisons(
  (word) => postMessage(word),
  (act) => {
    setTimeout(act, 0);
  },
  () => performance.now(),
);
addEventListener("message", (event: MessageEvent<WeighCall>) => hear(event.data));
