// One question, large: what to measure or pick, how, and what will be taken where it cannot be told. What is
// pressed last stands at the foot, in reach of the thumb.
import { useId } from "react";
import type { MouseEvent } from "react";
import type { AskView, UnitSystem } from "../../core/view.ts";
import { useWords } from "../ui/words/words.ts";
import { AskDrawing } from "../ui/drawings/ask-drawing.tsx";
import { unitIn } from "./other-units.ts";
import { useLater } from "./use-lazy-parts.ts";
import { draftOf } from "./quantity-draft.ts";
import { QuantityField } from "./quantity-field.tsx";
import type { Draft } from "../client/storage/stored-work.ts";

export function Question(props: {
  readonly ask: AskView;
  /** The answer as it stands, usable or not. */
  readonly answer: string | undefined;
  /** Why the answer cannot be used, in a sentence. */
  readonly fault?: string;
  /** Why a usable answer is asked for again. */
  readonly again?: string;
  readonly draft: Draft | undefined;
  readonly onDraft: (draft: Draft) => void;
  readonly onAnswer: (text: string | undefined) => void;
  /** Goes back to the question that is due; absent where this is the one. */
  readonly onLeave?: () => void;
  readonly units: UnitSystem;
  readonly headingRef: React.Ref<HTMLHeadingElement>;
}) {
  const { ask, answer } = props;
  const say = useWords();
  const later = useLater();
  // Once something else is typed, the fault of the old answer is no longer the point.
  const fault = props.draft === undefined ? props.fault : undefined;
  const id = useId();
  const form = `${id}-form`;
  return (
    <article className="question" aria-labelledby={`${id}-q`}>
      {ask.part !== "" && <p className="question-part">{ask.part}</p>}
      <h2 className="question-text" id={`${id}-q`} tabIndex={-1} ref={props.headingRef}>
        {ask.question}
      </h2>
      {fault !== undefined && (
        <p className="answer-wrong is-fault" id={`${id}-fault`} role="alert">
          {fault} {say("ask.you-wrote", { answer: answer ?? "" })}
        </p>
      )}
      {props.again !== undefined && <p className="question-again">{props.again}</p>}
      <AskDrawing place={ask.drawn} question={ask.question} Marks={later?.AskMarks} />
      <Field
        {...props}
        form={form}
        labelledBy={`${id}-q`}
        describedBy={fault === undefined ? undefined : `${id}-fault`}
      />
      {(answer !== undefined || props.onLeave) && (
        <div className="question-leave">
          {props.onLeave && (
            <button type="button" className="tap is-soft" onClick={props.onLeave}>
              {say(answer === undefined ? "ask.leave" : "ask.leave-as")}
            </button>
          )}
          {answer !== undefined && (
            <button type="button" className="tap is-soft" onClick={() => props.onAnswer(undefined)}>
              {say("ask.clear")}
            </button>
          )}
        </div>
      )}
      {ask.ifUnknown && (
        <p className="question-unknown" id={`${id}-unknown`}>
          {unknownWords(ask, say)}
        </p>
      )}
      {(ask.ifUnknown || ask.answer.is === "quantity") && (
        <div className={ask.answer.is === "quantity" ? "question-reach is-main" : "question-reach"}>
          {ask.ifUnknown && (
            <button
              type="button"
              className="tap is-soft"
              aria-pressed={answer === "unknown"}
              aria-describedby={`${id}-unknown`}
              onClick={once(() => props.onAnswer("unknown"))}
            >
              {say("ask.cannot-tell")}
            </button>
          )}
          {ask.answer.is === "quantity" && (
            <button type="submit" form={form} className="tap is-main">
              {say("ask.take")}
            </button>
          )}
        </div>
      )}
    </article>
  );
}

/** A word that would be taken stands with what it means. */
function unknownWords({ ifUnknown, answer }: AskView, say: ReturnType<typeof useWords>): string {
  if (ifUnknown === undefined) return "";
  const means =
    answer.is === "kind" ? answer.words.find(({ word }) => word === ifUnknown.take)?.means : undefined;
  const take =
    answer.is === "yes-no"
      ? say(ifUnknown.take === "yes" ? "ask.yes" : "ask.no")
      : means
        ? `${ifUnknown.take} (${means})`
        : ifUnknown.take;
  return ifUnknown.because
    ? say("ask.then-taken-because", { take, because: ifUnknown.because.replace(/\.$/, "") })
    : say("ask.then-taken", { take });
}

function Field(
  props: Parameters<typeof Question>[0] & {
    readonly form: string;
    readonly labelledBy: string;
    readonly describedBy?: string;
  },
) {
  const { ask, answer, onAnswer, labelledBy, describedBy } = props;
  const say = useWords();
  switch (ask.answer.is) {
    case "quantity":
      return (
        <QuantityField
          form={props.form}
          asked={ask.answer}
          draft={props.draft ?? draftOf(answer, unitIn(ask.answer.unit, props.units))}
          onDraft={props.onDraft}
          onTake={onAnswer}
          labelledBy={labelledBy}
          describedBy={describedBy}
        />
      );
    case "kind":
      return (
        <Choices labelledBy={labelledBy} choices={ask.answer.words} answer={answer} onAnswer={onAnswer} />
      );
    case "yes-no":
      return (
        <Choices
          labelledBy={labelledBy}
          choices={[
            { word: "yes", means: "", shown: say("ask.yes") },
            { word: "no", means: "", shown: say("ask.no") },
          ]}
          answer={answer}
          onAnswer={onAnswer}
          short
        />
      );
  }
}

/**
 * A gloved hand taps twice: the second tap must not answer the question that has come up in the same place.
 */
const once = (act: () => void) => (event: MouseEvent) => {
  if (event.detail <= 1) act();
};

interface Choice {
  readonly word: string;
  readonly means: string;
  /** Written instead of the word, where the word is not the book's. */
  readonly shown?: string;
}

/** Each choice is one press, and says what it means first: the word is the book's name for it. */
function Choices(props: {
  readonly labelledBy: string;
  readonly choices: readonly Choice[];
  readonly answer: string | undefined;
  readonly onAnswer: (text: string) => void;
  readonly short?: boolean;
}) {
  return (
    <div
      className={props.short ? "choices is-short" : "choices"}
      role="group"
      aria-labelledby={props.labelledBy}
    >
      {props.choices.map((choice) => (
        <button
          key={choice.word}
          type="button"
          className="choice"
          aria-pressed={props.answer === choice.word}
          onClick={once(() => props.onAnswer(choice.word))}
        >
          {choice.means !== "" && <span className="choice-means">{choice.means}</span>}
          <span className={choice.means === "" ? "choice-means" : "choice-word"}>
            {choice.shown ?? choice.word}
          </span>
        </button>
      ))}
    </div>
  );
}
