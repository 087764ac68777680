// The worker that weighs two texts, apart from the one that answers the hand that types.
import { weighings } from "./compare-portions.ts";
import type { WeighCall } from "./compare-portions.ts";

const hear = weighings((word) => postMessage(word), (act) => { setTimeout(act, 0); }, () => performance.now());
addEventListener("message", (event: MessageEvent<WeighCall>) => hear(event.data));
