// What the job screen shows besides questions and card: its drawings, reasons and close calls. Fetched once
// the first question stands.
export { AskMarks } from "../ui/drawings/ask-marks.tsx";
export { Drawings } from "../ui/drawings/drawings.tsx";
export { CloseCalls } from "./close-calls.tsx";
export { WhySheet } from "./why-sheet.tsx";
