// The order in which a few findings of one statement are read: what is wrong with it, then the examples that
// fail by it, then doubts.
import type { Finding } from "../../../core/view.ts";

const place = (finding: Finding): number =>
  finding.weight !== "error" ? 2 : finding.code.startsWith("worked/") ? 1 : 0;

/** Those of one place keep their order. */
export const causesFirst = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort((a, b) => place(a) - place(b));
