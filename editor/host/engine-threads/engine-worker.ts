// The thread in which the host's engine works: one question after another.
import { parentPort } from "node:worker_threads";
import { answer } from "./answer-question.ts";
import type { Question } from "./thread-messages.ts";

parentPort?.on("message", ({ id, question }: { readonly id: number; readonly question: Question }) => {
  try {
    const given = answer(
      question,
      () => performance.now(),
      (progress) => parentPort?.postMessage({ id, progress }),
    );
    parentPort?.postMessage({ id, answer: given });
  } catch (cause) {
    parentPort?.postMessage({ id, failed: cause instanceof Error ? cause.message : String(cause) });
  }
});
