// The questions that are not in front: those to come, those answered, and those that nothing waits for.
import type { Answers, AskView, JobView } from "../../../core/view.ts";

/** Questions without an answer, folded away until looked for; each can be taken up at any time. Draws nothing if there are none. */
export function QuestionList(props: {
  readonly title: string;
  readonly asks: readonly AskView[];
  readonly onChoose: (name: string) => void;
}) {
  const { asks, title } = props;
  if (asks.length === 0) return null;
  return (
    <details className="ask-list">
      <summary>{title} <span className="ask-count">{asks.length}</span></summary>
      <ul className="ask-rows">
        {asks.map((ask) => (
          <li key={ask.name}>
            <button type="button" className="ask-row" onClick={() => props.onChoose(ask.name)}><span>{ask.question}</span></button>
          </li>
        ))}
      </ul>
    </details>
  );
}

export function AnswerList(props: {
  readonly asks: readonly AskView[];
  readonly answers: Answers;
  readonly job: JobView;
  readonly onChoose: (name: string) => void;
}) {
  if (props.asks.length === 0) return null;
  return (
    <section className="ask-list">
      <h2>Already answered <span className="ask-count">{props.asks.length}</span></h2>
      <ul className="ask-rows">
        {props.asks.map((ask) => (
          <li key={ask.name}>
            <button type="button" className="ask-row is-answered" onClick={() => props.onChoose(ask.name)}>
              <span>{ask.question}</span>
              <b>{answerText(ask, props.answers, props.job)}</b>
              <small>Change</small>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The answer as the job reads it, in the units shown; what was taken where the technician could not tell. */
export function answerText(ask: AskView, answers: Answers, job: JobView): string {
  const shown = job.values.find((value) => value.name === ask.name);
  const given = answers[ask.name];
  if (given === "unknown") return shown?.state === "known" ? `${shown.text}, taken: could not tell` : "could not tell";
  return shown?.state === "known" ? shown.text : (given ?? "");
}
