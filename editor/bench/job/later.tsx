// What the job screen shows besides questions and card: its drawings, reasons and close calls. Fetched once the first question stands.
export { AskMarks } from "../drawings/ask-marks.tsx";
export { Drawings } from "../drawings/drawings.tsx";
export { CloseCalls } from "../standing/close-calls.tsx";
export { WhySheet } from "./why-sheet.tsx";
