// Every kind of finding with its page of the reference: for the reference itself and for the tests that hold
// it true.
import type { FindingKind } from "../define.ts";
import { FINDING_KINDS } from "../index.ts";
import { AMOUNTS } from "./amounts.ts";
import { BOOK } from "./book.ts";
import { CHARTS } from "./charts.ts";
import { LAYERS } from "./layers.ts";
import { NAMES } from "./names.ts";
import type { FindingPage } from "./page.ts";
import { WRITING } from "./writing.ts";

/** By the code of the finding; a test keeps it complete. */
export const FINDING_PAGES: Readonly<Record<string, FindingPage>> = {
  ...WRITING,
  ...NAMES,
  ...AMOUNTS,
  ...CHARTS,
  ...BOOK,
  ...LAYERS,
};

/** In the order of the reference; a kind without a page is left out. */
export const DESCRIBED_FINDINGS: readonly (FindingKind & FindingPage)[] = FINDING_KINDS.flatMap((kind) => {
  const page = FINDING_PAGES[kind.code];
  return page === undefined ? [] : [{ ...kind, ...page }];
});
