// All that the job page fetches after its first question stands, in one portion.
import "./panel.css";

export { AtPanel } from "./panel-work.tsx";
export { JobList } from "./job-list.tsx";
export { RecordOnCard } from "./record-on-card.tsx";
export { LeaveStep } from "./leave-step.tsx";
export { SignedHead } from "./signed-head.tsx";
export { TimerStrip } from "./timer-strip.tsx";
export { OtherBook, WithoutBook } from "./without-book.tsx";
