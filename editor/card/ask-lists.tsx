// The questions that are not in front: those to come, those answered, and those that nothing waits for.
import type { Answers, AskView, JobView } from "../../core/view.ts";
import { english, useWords } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";

/**
 * Questions without an answer, folded away until looked for; each can be taken up at any time. Draws nothing
 * if there are none.
 */
export function QuestionList(props: {
  readonly title: string;
  readonly asks: readonly AskView[];
  readonly onChoose: (name: string) => void;
}) {
  const { asks, title } = props;
  if (asks.length === 0) return null;
  return (
    <details className="ask-list">
      <summary>
        {title} <span className="ask-count">{asks.length}</span>
      </summary>
      <ul className="ask-rows">
        {asks.map((ask) => (
          <li key={ask.name}>
            <button type="button" className="ask-row" onClick={() => props.onChoose(ask.name)}>
              <span>{ask.question}</span>
            </button>
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
  const say = useWords();
  if (props.asks.length === 0) return null;
  return (
    <section className="ask-list">
      <h2>
        {say("ask.answered")} <span className="ask-count">{props.asks.length}</span>
      </h2>
      <ul className="ask-rows">
        {props.asks.map((ask) => (
          <li key={ask.name}>
            <button type="button" className="ask-row is-answered" onClick={() => props.onChoose(ask.name)}>
              <span>{ask.question}</span>
              <AnswerShown
                text={answerText(ask, props.answers, props.job, say)}
                means={answerMeans(ask, props.answers, props.job)}
              />
              <small>{say("ask.change")}</small>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A word of a kind stands with what it means. */
function AnswerShown({ text, means }: { readonly text: string; readonly means: string }) {
  return (
    <b>
      {text}
      {means !== "" && <span className="word-means">{means}</span>}
    </b>
  );
}

/** The answer as the job reads it, in the units shown; what was taken where the technician could not tell. */
export function answerText(ask: AskView, answers: Answers, job: JobView, say: Say = english): string {
  const shown = job.values.find((value) => value.name === ask.name);
  const given = answers[ask.name];
  const text = shown?.state === "known" ? yesNo(shown.text, ask, say) : undefined;
  if (given === "unknown")
    return text === undefined ? say("ask.not-told") : say("ask.taken-not-told", { value: text });
  return text ?? given ?? "";
}

/** What the word answered means, as the book says it; "" for measures, and where the book says nothing. */
export function answerMeans(ask: AskView, answers: Answers, job: JobView): string {
  if (ask.answer.is !== "kind" || answers[ask.name] === undefined) return "";
  const shown = job.values.find((value) => value.name === ask.name);
  return shown?.state === "known"
    ? (ask.answer.words.find(({ word }) => word === shown.text)?.means ?? "")
    : "";
}

function yesNo(text: string, ask: AskView, say: Say): string {
  if (ask.answer.is !== "yes-no") return text;
  return text === "yes" ? say("ask.yes") : text === "no" ? say("ask.no") : text;
}
