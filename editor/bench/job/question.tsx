// One question, large: what to measure or pick, how, and what will be taken where it cannot be told.
import { useId } from "react";
import type { MouseEvent } from "react";
import type { AskView, UnitSystem } from "../../../core/view.ts";
import { unitIn } from "./other-units.ts";
import { draftOf } from "./quantity-draft.ts";
import type { Draft } from "./quantity-draft.ts";
import { QuantityField } from "./quantity-field.tsx";

export function Question(props: {
  readonly ask: AskView;
  /** The answer as it stands, usable or not. */
  readonly answer: string | undefined;
  /** Why the answer cannot be used, as the engine says it. */
  readonly fault?: string;
  readonly draft: Draft | undefined;
  readonly onDraft: (draft: Draft) => void;
  readonly onAnswer: (text: string | undefined) => void;
  /** Goes back to the question that is due; absent where this is the one. */
  readonly onLeave?: () => void;
  readonly units: UnitSystem;
  readonly headingRef: React.Ref<HTMLHeadingElement>;
}) {
  const { ask, answer } = props;
  // Once something else is typed, the fault of the old answer is no longer the point.
  const fault = props.draft === undefined ? props.fault : undefined;
  const id = useId();
  return (
    <article className="question" aria-labelledby={`${id}-q`}>
      {ask.part !== "" && <p className="question-part">{ask.part}</p>}
      <h2 className="question-text" id={`${id}-q`} tabIndex={-1} ref={props.headingRef}>{ask.question}</h2>
      {fault !== undefined && (
        <p className="answer-wrong is-fault" id={`${id}-fault`} role="alert">{fault} You wrote “{answer}”; it is kept until you change it.</p>
      )}
      <Field {...props} labelledBy={`${id}-q`} describedBy={fault === undefined ? undefined : `${id}-fault`} />
      {ask.ifUnknown && (
        <div className="cannot-tell">
          <button type="button" className="tap is-soft" aria-pressed={answer === "unknown"} onClick={once(() => props.onAnswer("unknown"))}>Cannot tell</button>
          <p>Then <b>{ask.ifUnknown.take}</b> is taken{ask.ifUnknown.because ? <>: {ask.ifUnknown.because.replace(/\.$/, "")}.</> : "."}</p>
        </div>
      )}
      {(answer !== undefined || props.onLeave) && (
        <div className="question-leave">
          {props.onLeave && <button type="button" className="tap is-soft" onClick={props.onLeave}>{answer === undefined ? "Leave it for now" : "Leave it as it is"}</button>}
          {answer !== undefined && <button type="button" className="tap is-soft" onClick={() => props.onAnswer(undefined)}>Clear this answer</button>}
        </div>
      )}
    </article>
  );
}

function Field(props: Parameters<typeof Question>[0] & { readonly labelledBy: string; readonly describedBy?: string }) {
  const { ask, answer, onAnswer, labelledBy, describedBy } = props;
  switch (ask.answer.is) {
    case "quantity":
      return (
        <QuantityField
          asked={ask.answer} draft={props.draft ?? draftOf(answer, unitIn(ask.answer.unit, props.units))}
          onDraft={props.onDraft} onTake={onAnswer} labelledBy={labelledBy} describedBy={describedBy}
        />
      );
    case "kind":
      return <Choices labelledBy={labelledBy} choices={ask.answer.words} answer={answer} onAnswer={onAnswer} />;
    case "yes-no":
      return <Choices labelledBy={labelledBy} choices={yesNo} answer={answer} onAnswer={onAnswer} short />;
  }
}

/** A gloved hand taps twice: the second tap must not answer the question that has come up in the same place. */
const once = (act: () => void) => (event: MouseEvent) => {
  if (event.detail <= 1) act();
};

interface Choice {
  readonly word: string;
  readonly means: string;
}

const yesNo: readonly Choice[] = [{ word: "yes", means: "" }, { word: "no", means: "" }];

/** Each choice is one press, and says what it means before it is pressed. */
function Choices(props: {
  readonly labelledBy: string;
  readonly choices: readonly Choice[];
  readonly answer: string | undefined;
  readonly onAnswer: (text: string) => void;
  readonly short?: boolean;
}) {
  return (
    <div className={props.short ? "choices is-short" : "choices"} role="group" aria-labelledby={props.labelledBy}>
      {props.choices.map((choice) => (
        <button
          key={choice.word} type="button" className="choice" aria-pressed={props.answer === choice.word} onClick={once(() => props.onAnswer(choice.word))}
        >
          <span className="choice-word">{choice.word}</span>
          {choice.means !== "" && <span className="choice-means">{choice.means}</span>}
        </button>
      ))}
    </div>
  );
}
