// The one door into the engine. Nothing outside engine/ imports anything deeper.
//
// The engine is pure: no clock, file, network, process or chance. No function here
// throws for a bad book or a bad job; each returns its product and its findings.
export { type Book, type Job, contentHashOf, readBook, showJob, wholeTextOf, workJob } from "./api/book.ts";
export { why } from "./api/why.ts";
export { sensitivityOfJob } from "./api/sensitivity.ts";
export { type BookHead, type NamedBook, dependenciesOf, headOf } from "./language/syntax/dependencies.ts";
export { bundled, unbundled } from "./language/layers/bundle.ts";
export { tidy } from "./language/syntax/tidy.ts";
export { chartOf } from "./ide/chart-view.ts";
export { type Mark, tokenColours } from "./ide/token-colours.ts";
export { type Completion, completionsAt } from "./ide/completions.ts";
export { about, occurrencesAt, rename } from "./ide/names-at.ts";
export { insteadOf } from "./ide/layer-edits.ts";
export {
  addChartRow,
  insertStatement,
  moveStatement,
  removeChartRow,
  removeStatement,
  setCell,
} from "./ide/edits.ts";
export {
  type PortionedComparison,
  type CompareOptions,
  compareRules,
  compareBooks,
} from "./api/comparison.ts";
export {
  type Portioned,
  mutationTestOf,
  verificationOf,
  relevantQuestionsOf,
} from "./api/verification.ts";
export { workedFrom } from "./api/worked-example-text.ts";
export { engineVersion } from "./version.ts";
export { outcomeMap } from "./ide/outcome-map.ts";
export { chartDrawn } from "./ide/chart-drawn.ts";
