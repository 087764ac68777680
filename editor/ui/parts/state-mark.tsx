// The state of a job by shape and word, so that it is read without colour and from across the shop.
import type { JobState } from "../../../core/job-state.ts";
import { stateWord } from "./state-words.ts";
import { useWords } from "../words/words.ts";
import "./parts.css";

export function StateMark(props: { readonly state: JobState; readonly large?: boolean }) {
  const say = useWords();
  return (
    <span className={`state-mark state-${props.state}${props.large ? " is-large" : ""}`}>
      <svg viewBox="0 0 24 24" aria-hidden="true" focusable="false">
        <StateShape state={props.state} />
      </svg>
      <span>{stateWord(props.state, say)}</span>
    </span>
  );
}

/**
 * Ready: a filled round with a tick. Waiting: an open, broken round. Stopped: a filled octagon. Referred:
 * an open octagon with an arrow. Impossible: a square crossed out.
 */
function StateShape({ state }: { readonly state: JobState }) {
  switch (state) {
    case "ready":
      return (
        <>
          <circle cx="12" cy="12" r="10" className="shape-fill" />
          <path d="M7 12.5l3.4 3.4L17 8.6" className="shape-cut" />
        </>
      );
    case "waiting":
      return (
        <>
          <circle cx="12" cy="12" r="9.5" className="shape-line" strokeDasharray="3.6 2.4" />
          <path d="M12 7v5.4l3.6 2.2" className="shape-line" />
        </>
      );
    case "stopped":
      return (
        <>
          <path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" className="shape-fill" />
          <path d="M6.5 12h11" className="shape-cut" strokeWidth="3.4" />
        </>
      );
    case "referred":
      return (
        <>
          <path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" className="shape-line" />
          <path d="M6.5 12h9M12.5 8l4 4-4 4" className="shape-line" />
        </>
      );
    case "impossible":
      return (
        <>
          <path d="M3 3h18v18H3z" className="shape-line" />
          <path d="M3 3l18 18M21 3L3 21" className="shape-line" />
        </>
      );
  }
}
