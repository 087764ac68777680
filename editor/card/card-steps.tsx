// The work of a job card: each step with its tick, reason and times, and the sums of all.
import { useState } from "react";
import type { CardLine } from "../../core/view.ts";
import type { Ticked } from "../client/storage/stored-work.ts";
import { PiecesText } from "../ui/parts/pieces-text.tsx";
import { minutesWords } from "../ui/parts/state-words.ts";
import { useWords } from "../ui/words/words.ts";
import { cardTotals, withTick } from "./card-facts.ts";
import { Reason } from "./card-parts.tsx";
import type { JobCardProps } from "./job-card.tsx";
import { meant, useMeaning } from "./meanings.ts";

export function Steps(props: JobCardProps) {
  const { steps } = props.job;
  const say = useWords();
  const [own, setOwn] = useState<Ticked>({});
  const ticked = props.ticked ?? own;
  const tick = (step: CardLine, is: boolean) => {
    const next = withTick(ticked, step, is);
    setOwn(next);
    props.onTicked?.(next);
  };
  const done = steps.filter((step) => ticked[step.id] === step.text).length;
  if (steps.length === 0) return <p className="card-none">{say("card.no-steps")}</p>;
  return (
    <section className="card-steps">
      <h3>
        <span>
          {steps.length === 1 ? say("card.work-in.one") : say("card.work-in", { count: steps.length })}
        </span>
        <span className="card-count on-screen-only">{say("card.done", { done, count: steps.length })}</span>
      </h3>
      <ol>
        {steps.map((step, at) => (
          <Step
            key={step.id}
            step={step}
            before={steps.slice(0, at)}
            ticked={ticked[step.id]}
            onTick={(is) => tick(step, is)}
            card={props}
          />
        ))}
      </ol>
      <Totals steps={steps} />
    </section>
  );
}

interface StepProps {
  readonly step: CardLine;
  /** The steps above it on the card. */
  readonly before: readonly CardLine[];
  /** The words that were ticked; undefined where it is not ticked. */
  readonly ticked: string | undefined;
  readonly onTick: (is: boolean) => void;
  readonly card: JobCardProps;
}

/** A tick holds for the words that were ticked: a step that has changed since says so. */
function Step({ step, before, ticked, onTick, card }: StepProps) {
  const { onWhy, besideStep, locked } = card;
  const say = useWords();
  const place = before.length + 1;
  const done = ticked === step.text;
  return (
    <li className={done ? "card-step is-done" : "card-step"}>
      <label className="card-tick">
        <input
          type="checkbox"
          checked={done}
          disabled={locked}
          aria-label={say("card.step-done", { place, text: step.text })}
          onChange={() => onTick(!done)}
        />
        <span aria-hidden="true">{place}</span>
      </label>
      <div className="card-step-says">
        <p className="card-says">
          <PiecesText pieces={step.pieces} onWhy={onWhy} spans={card.job.doubts?.spans} />
        </p>
        <Meant line={step} before={before} />
        {ticked !== undefined && !done && <p className="card-changed">{say("card.step-changed")}</p>}
        <Reason line={step} onWhy={onWhy} />
        {besideStep?.(step, place)}
      </div>
      <StepTimes step={step} />
    </li>
  );
}

function StepTimes({ step }: { readonly step: CardLine }) {
  const say = useWords();
  return (
    <p className="card-times">
      {step.takes && (
        <span>
          <small>{say("card.work")}</small> {step.takes}
        </span>
      )}
      {step.waits && (
        <span className="is-wait">
          <small>{say("card.wait")}</small> {step.waits}
        </span>
      )}
    </p>
  );
}

function Totals({ steps }: { readonly steps: readonly CardLine[] }) {
  const say = useWords();
  const { takes, waits, untimed } = cardTotals(steps);
  return (
    <p className="card-totals">
      <span>
        <small>{say("card.all-work")}</small> {minutesWords(takes, say)}
      </span>
      <span>
        <small>{say("card.all-waiting")}</small> {minutesWords(waits, say)}
      </span>
      {untimed > 0 && (
        <span>
          <small>{say("card.untimed")}</small>{" "}
          {untimed === 1 ? say("state.steps.one") : say("state.steps", { count: untimed })}
        </span>
      )}
    </p>
  );
}

/** What the words of kinds in a step mean: said where each is met first. */
function Meant({ line, before }: { readonly line: CardLine; readonly before: readonly CardLine[] }) {
  const meaning = useMeaning();
  const said = new Set(before.flatMap((one) => meant(one.pieces, meaning).map(({ word }) => word)));
  const fresh = meant(line.pieces, meaning).filter(({ word }) => !said.has(word));
  if (fresh.length === 0) return null;
  return (
    <p className="card-meant">
      {fresh.map(({ word, means }) => (
        <span key={word}>
          <b>{word}</b> {means}
        </span>
      ))}
    </p>
  );
}
