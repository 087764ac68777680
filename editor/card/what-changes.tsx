// What would change one value: the nearest answers at which it, or a choice that it rests on, turns; and the
// answers that it follows.
import { useEffect, useEffectEvent, useState } from "react";
import type { Turn as TurnFacts } from "../../core/reason.ts";
import type { AskView, SensitivityView, TraceView } from "../../core/view.ts";
import { isAbout, turnsOf } from "./close-calls.tsx";
import { closeCallsInOrder } from "./close-calls-order.ts";
import { traceValue, turnWords } from "../ui/words/engine-words.ts";
import { useWords } from "../ui/words/words.ts";
import { useMeaning } from "./meanings.ts";

/** More are not read at a panel. */
const most = 6;

export function WhatChanges(props: {
  /** Everything that the value rests on. */
  readonly trace: TraceView;
  readonly asks: readonly AskView[];
  readonly onCloseCalls: () => Promise<readonly SensitivityView[] | undefined>;
  readonly onAsk?: (name: string) => void;
}) {
  const { trace, asks, onAsk } = props;
  const say = useWords();
  const [flips, setFlips] = useState<readonly SensitivityView[]>();
  const closeCalls = useEffectEvent(props.onCloseCalls);
  useEffect(() => {
    let wanted = true;
    void closeCalls().then((found) => {
      if (wanted) setFlips(concerning(closeCallsInOrder(found ?? []), trace));
    });
    return () => {
      wanted = false;
    };
  }, [trace]);
  const follows = answersOf(trace);
  return (
    <div className="what-changes">
      {flips === undefined ? (
        <p role="status">{say("flip.looking")}</p>
      ) : (
        flips.length > 0 && (
          <>
            <p>{say("why.change.turns")}</p>
            <ul className="flips">
              {flips.slice(0, most).map((flip) => (
                <li key={flip.says} className="flip">
                  <Turn flip={flip} asks={asks} />
                </li>
              ))}
            </ul>
          </>
        )
      )}
      {follows.length > 0 && (
        <>
          <p>{flips?.length === 0 ? say("why.change.none") : say("why.change.follows")}</p>
          <ul className="ask-rows">
            {follows.map((step) => {
              const row = (
                <>
                  <span>{asks.find((ask) => ask.name === step.name)?.question ?? step.name}</span>
                  <b>{step.does === "unanswered" ? say("does.unanswered") : traceValue(step, say)}</b>
                </>
              );
              return (
                <li key={step.name}>
                  {onAsk ? (
                    <button type="button" className="ask-row is-answered" onClick={() => onAsk(step.name)}>
                      {row}
                      <small>{say("ask.change")}</small>
                    </button>
                  ) : (
                    <p className="ask-row is-answered">{row}</p>
                  )}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </div>
  );
}

/** What turns first, then by which answer, in the words of the question; a word with what it means. */
function Turn({ flip, asks }: { readonly flip: SensitivityView; readonly asks: readonly AskView[] }) {
  const say = useWords();
  const meaning = useMeaning();
  const meaningOf = (name: string, text: string) => meaning(name, text) || text;
  const [first] = flip.turned;
  const means = first?.code === "becomes" ? meaning(first.name, first.word) : "";
  return (
    <>
      <p>
        <b>{first && turnWords(first, say)}</b>
        {means !== "" && ` (${means})`}
      </p>
      {flip.changes.map(({ ask, to, now }, place) => (
        <p key={ask}>
          {say(place === 0 ? "why.change.if" : "why.change.and", {
            question: asks.find((one) => one.name === ask)?.question ?? ask,
            to: meaningOf(ask, to),
            now: meaningOf(ask, now),
          })}
        </p>
      ))}
    </>
  );
}

/**
 * Close calls that turn the value itself, its own turn in front; else those that turn a choice it rests on.
 */
function concerning(flips: readonly SensitivityView[], trace: TraceView): readonly SensitivityView[] {
  const own = flips
    .filter((flip) => turnsOf(flip, trace.of))
    .map((flip) => inFront(flip, (turn) => isAbout(turn, trace.of)));
  if (own.length > 0) return own;
  const names = new Set(trace.steps.map((step) => step.name));
  const isOf = (turn: TurnFacts): boolean => !("line" in turn) && names.has(turn.name);
  return flips.filter((flip) => flip.turned.some(isOf)).map((flip) => inFront(flip, isOf));
}

const inFront = (flip: SensitivityView, first: (turn: TurnFacts) => boolean): SensitivityView => ({
  ...flip,
  turned: [...flip.turned.filter(first), ...flip.turned.filter((turn) => !first(turn))],
});

/** Answers given or taken that the value follows, in the order in which the trace meets them. */
const answersOf = (trace: TraceView): readonly TraceView["steps"][number][] =>
  trace.steps.filter((step) => step.does === "answer" || step.does === "taken" || step.does === "unanswered");
