// One reason on the plumb line, with what it rests on below it once it is opened.
import { useState } from "react";
import type { Span } from "../../../core/span.ts";
import type { TraceStep, TraceView } from "../../../core/view.ts";
import { decidedWords } from "../words/engine-words.ts";
import { useWords } from "../words/words.ts";
import { basisWords, doesWord } from "./state-words.ts";
import { below, lineState, restsOnce } from "./why-opened.ts";
import type { LinePath, Opened } from "./why-opened.ts";
import { whyGives, whyReason } from "./why-sentence.ts";

/** So many reasons are drawn under one line at once: a list of thousands is read in pages. */
const PAGE = 24;

export interface WhyLineProps {
  readonly trace: TraceView;
  readonly place: number;
  readonly path: LinePath;
  readonly opened: Opened;
  readonly lit?: string;
  readonly onOpen: (place: number, path: LinePath) => void;
  readonly onClose: (path: LinePath) => void;
  /** Brings the reader to the line at which a shared step stands open. */
  readonly onFind: (path: LinePath) => void;
  readonly onGo?: (id: string, at: Span) => void;
  readonly onHover?: (id: string | undefined, at?: Span) => void;
}

/** What a step rests on, each as a line of its own; nothing where it rests on nothing. */
export function WhyRests(props: WhyLineProps) {
  const { trace, place, path } = props;
  const [pages, setPages] = useState(1);
  const say = useWords();
  const step = trace.steps[place];
  const rests = restsOnce(trace, place);
  if (step === undefined || rests.length === 0) return null;
  const drawn = rests.slice(0, pages * PAGE);
  return (
    <ul className="why-lines" aria-label={say("why.rests", { name: step.name })}>
      {drawn.map((rest) => (
        <WhyLine key={rest} {...props} place={rest} path={below(path, rest)} />
      ))}
      {rests.length > drawn.length && (
        <li className="why-more">
          <button type="button" className="tap is-soft" onClick={() => setPages(pages + 1)}>
            {say("why.more", { count: rests.length - drawn.length })}
          </button>
        </li>
      )}
    </ul>
  );
}

function WhyLine(props: WhyLineProps) {
  const { trace, place, path, opened } = props;
  const say = useWords();
  const step = trace.steps[place];
  if (step === undefined) return null;
  const state = lineState(opened, place, path);
  const point = () => props.onHover?.(step.id, step.at);
  const press = () => {
    switch (state.is) {
      case "open":
        return props.onClose(path);
      case "closed":
        return props.onOpen(place, path);
      case "elsewhere":
        return props.onFind(state.home);
    }
  };
  return (
    <li className={`why-line is-${step.state} does-${step.does}${step.id === props.lit ? " is-lit" : ""}`}>
      <div className="why-here" onMouseEnter={point} onFocus={point}>
        <button
          type="button"
          className="why-head"
          data-line={path}
          onClick={press}
          aria-expanded={state.is === "elsewhere" ? undefined : state.is === "open"}
        >
          <span className="why-name">{step.name}</span>
          <span className="why-leader" aria-hidden="true" />
          <span className="why-gives">{whyGives(step, say).short}</span>
          <span className="why-does">{doesWord(step.does, say)}</span>
          {state.is === "elsewhere" && <span className="why-elsewhere">{say("why.elsewhere")}</span>}
          {state.is === "closed" && <Short step={step} />}
        </button>
        {state.is === "open" && <WhyDetails step={step} onGo={props.onGo} />}
      </div>
      {state.is === "open" && <WhyRests {...props} />}
    </li>
  );
}

/** A closed line says its reason in half a sentence, where it has one that its name does not say already. */
function Short({ step }: { readonly step: TraceStep }) {
  const say = useWords();
  const reason = whyReason(step, say);
  return reason === "" || reason === say("why.as-answered") ? null : (
    <span className="why-short">{reason}</span>
  );
}

/**
 * The facts of one step; `becauseSaid` and `textSaid` where the heading above has said the reason or the text
 * already.
 */
export function WhyDetails(props: {
  readonly step: TraceStep;
  readonly becauseSaid?: boolean;
  readonly textSaid?: boolean;
  readonly onGo?: (id: string, at: Span) => void;
}) {
  const { step, onGo } = props;
  const asked = step.does === "answer" || step.does === "taken" || step.does === "unanswered";
  const say = useWords();
  const { text } = whyGives(step, say);
  // That a question is `of` a kind tells a reader nothing; its unit and range do.
  const ruleSays = step.rule !== "" && !(asked && step.rule.startsWith("of "));
  const filledSays = !asked && step.filled !== "" && step.filled !== step.rule && step.filled !== step.value;
  return (
    <dl className="why-details">
      {text !== undefined && !props.textSaid && <Fact says={say("why.says")}>{text}</Fact>}
      {ruleSays && (
        <Fact says={say(asked ? "why.asks-for" : "why.rule")} rule>
          {step.rule}
        </Fact>
      )}
      {filledSays && (
        <Fact says={say("why.filled")} rule>
          {step.filled}
        </Fact>
      )}
      {step.decided !== "" && <Fact says={say("why.decided")}>{decidedWords(step, say)}</Fact>}
      {step.because && !props.becauseSaid && <Fact says={say("why.because")}>{step.because}</Fact>}
      {step.basis && <Fact says={say("why.basis")}>{basisWords(step.basis, say)}</Fact>}
      <Fact says={say("why.stands-in")}>
        {step.layer}
        {onGo && (
          <button type="button" className="why-go" onClick={() => onGo(step.id, step.at)}>
            {say("why.go")}
            <span className="out-of-sight">{say("why.go-of", { name: step.name })}</span>
          </button>
        )}
      </Fact>
    </dl>
  );
}

function Fact(props: { readonly says: string; readonly rule?: boolean; readonly children: React.ReactNode }) {
  return (
    <div className={props.rule ? "is-rule" : undefined}>
      <dt>{props.says}</dt>
      <dd>{props.children}</dd>
    </div>
  );
}
