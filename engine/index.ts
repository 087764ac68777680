// The one door into the engine. Nothing outside engine/ imports anything deeper.
//
// The engine is pure: no clock, file, network, process or chance. No function here
// throws for a bad book or a bad job; each returns its product and its findings.
export { type Book, type Job, fingerprintOf, readBook, showJob, wholeText, workJob } from "./book.ts";
export { why } from "./why.ts";
export { whatWouldChange } from "./close-calls.ts";
export { tidy } from "./syntax/tidy.ts";
export { chartOf } from "./assist/chart.ts";
export { type Mark, colour } from "./assist/colour.ts";
export { type Offer, offers } from "./assist/offers.ts";
export { about, places, rename } from "./assist/places.ts";
export { insteadOf } from "./assist/under.ts";
export { addChartRow, insertStatement, moveStatement, removeChartRow, removeStatement, setCell, workedFrom } from "./assist/edits.ts";
export { type PortionedWeighing, type WeighOptions, compareRules, weigh } from "./weighs.ts";
export { type Portioned, doubts, guardOf, standingOf, whatMatters } from "./proofs.ts";
export { engineVersion } from "./version.ts";
export { outcomeMap } from "./assist/outcome-map.ts";
export { chartDrawn } from "./assist/chart-drawn.ts";
