// The foot of a job card: the answers that it rests on, with the book that made it.
import type { AskView } from "../../core/view.ts";
import { useWords } from "../ui/words/words.ts";
import { answerMeans, answerText } from "./ask-lists.tsx";
import { editionText } from "./book-stack.ts";
import { answeredAsks, restsOnPractice } from "./card-facts.ts";
import type { JobCardProps } from "./job-card.tsx";

/** The answers that the card rests on, with the book that made it, so that the card can be worked again. */
export function RestsOn(props: JobCardProps) {
  const { job, title, edition } = props;
  const say = useWords();
  const given = answeredAsks(props.asks, props.answers);
  return (
    <footer className="card-rests">
      <h3>{say("card.rests")}</h3>
      {given.length === 0 ? (
        <p className="card-none">{say("card.nothing-answered")}</p>
      ) : (
        <dl>
          {given.map((ask) => (
            <Answer key={ask.name} ask={ask} card={props} />
          ))}
        </dl>
      )}
      <div className="card-end">
        <p className="card-made">
          {edition === undefined ? say("card.made", { title }) : say("card.made-edition", { title, edition })}
          {props.under !== undefined &&
            props.under.length > 0 &&
            " " +
              say("card.stands-on", { books: props.under.map((one) => editionText(one, say)).join("; ") })}
          {props.print !== undefined && ` ${say("card.print", { print: props.print.slice(0, 12) })}`}
          {restsOnPractice(job) && ` ${say("card.practice")}`}
        </p>
        {props.signed === undefined && (
          <p className="card-signed">
            {say("card.done-by")}
            <i /> {say("card.checked-by")}
            <i />
          </p>
        )}
      </div>
    </footer>
  );
}

/** On paper the name stands for the question, so that the card keeps to one page. */
function Answer({ ask, card }: { readonly ask: AskView; readonly card: JobCardProps }) {
  const { onWhy, onAsk } = card;
  const say = useWords();
  const text = answerText(ask, card.answers, card.job, say);
  const means = answerMeans(ask, card.answers, card.job);
  return (
    <div>
      <dt>
        <span className="on-screen-only">{ask.question}</span>
        <span className="on-paper-only">{ask.name}</span>
      </dt>
      <dd>
        {onWhy ? (
          <button
            type="button"
            className="piece piece-asks"
            onClick={() => onWhy(ask.name)}
            aria-label={say("card.text-why", { text })}
          >
            {text}
          </button>
        ) : (
          text
        )}
        {means !== "" && <span className="word-means">{means}</span>}
        {onAsk && (
          <button
            type="button"
            className="card-why"
            onClick={() => onAsk(ask.name)}
            aria-label={say("card.change-of", { question: ask.question })}
          >
            {say("ask.change")}
          </button>
        )}
      </dd>
    </div>
  );
}
