// What would change one value: the nearest answers at which it, or a choice that it rests on, turns; and the answers that it follows.
import { useEffect, useState } from "react";
import type { AskView, FlipView, TraceView } from "../../../core/view.ts";
import { FlipLine, turnsOf } from "../standing/close-calls.tsx";
import { closeCallsInOrder } from "../standing/close-calls-order.ts";
import { useWords } from "../words/words.ts";

/** More are not read at a panel. */
const most = 6;

export function WhatChanges(props: {
  /** Everything that the value rests on. */
  readonly trace: TraceView;
  readonly asks: readonly AskView[];
  readonly onCloseCalls: () => Promise<readonly FlipView[] | undefined>;
  readonly onAsk: (name: string) => void;
}) {
  const { trace } = props;
  const say = useWords();
  const [flips, setFlips] = useState<readonly FlipView[]>();
  useEffect(() => {
    let wanted = true;
    void props.onCloseCalls().then((found) => { if (wanted) setFlips(closeCallsInOrder(concerning(found ?? [], trace))); });
    return () => { wanted = false; };
  }, [trace]);
  const follows = answersOf(trace);
  return (
    <div className="what-changes">
      {flips === undefined ? <p role="status">{say("flip.looking")}</p> : flips.length > 0 && (
        <>
          <p>{say("why.change.turns")}</p>
          <ul className="flips">{flips.slice(0, most).map((flip) => <li key={flip.says} className="flip"><FlipLine flip={flip} /></li>)}</ul>
        </>
      )}
      {follows.length > 0 && (
        <>
          <p>{flips?.length === 0 ? say("why.change.none") : say("why.change.follows")}</p>
          <ul className="ask-rows">
            {follows.map((step) => (
              <li key={step.name}>
                <button type="button" className="ask-row is-answered" onClick={() => props.onAsk(step.name)}>
                  <span>{props.asks.find((ask) => ask.name === step.name)?.question ?? step.name}</span><b>{step.value}</b><small>{say("ask.change")}</small>
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

/** Close calls that turn the value itself, or a name that it rests on. Those of the value itself come first. */
export function concerning(flips: readonly FlipView[], trace: TraceView): readonly FlipView[] {
  const names = [...new Set(trace.steps.flatMap((step) => [step.name, step.id]))];
  const own = flips.filter((flip) => turnsOf(flip, trace.of));
  return own.length > 0 ? own : flips.filter((flip) => names.some((name) => flip.turns.some((turn) => turn.startsWith(`${name} becomes `) || turn.startsWith(`${name} has `))));
}

/** Answers given or taken that the value follows, in the order in which the trace meets them. */
export const answersOf = (trace: TraceView): readonly TraceView["steps"][number][] => trace.steps.filter((step) => step.does === "answer" || step.does === "taken" || step.does === "unanswered");
