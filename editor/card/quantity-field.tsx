// A measured answer: typed, stepped or tapped. Checked while it is typed, never thrown away. The button that
// takes it stands outside, in reach of the thumb.
import { useId, useState } from "react";
import type { FormEvent } from "react";
import { PickOne } from "../ui/parts/pick-one.tsx";
import { useWords } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";
import { InchTaps, partsFor } from "./inch-taps.tsx";
import type { InchParts } from "./inch-taps.tsx";
import { MeasureStick } from "./measure-stick.tsx";
import { convert, unitsFor } from "./other-units.ts";
import { judge, leading, stepped, withUnit } from "./quantity-draft.ts";
import type { QuantityAnswer } from "./quantity-draft.ts";
import { ToleranceField } from "./tolerance-field.tsx";
import { readNumber, writeNumber, writeSixteenths } from "./typed-number.ts";
import type { Draft } from "../client/storage/stored-work.ts";

export function QuantityField(props: {
  /** Id of the form, by which a button elsewhere takes the answer. */
  readonly form: string;
  readonly asked: QuantityAnswer;
  readonly draft: Draft;
  readonly onDraft: (draft: Draft) => void;
  readonly onTake: (answer: string) => void;
  /** Element ids of the question and of a sentence about a fault found elsewhere. */
  readonly labelledBy: string;
  readonly describedBy?: string;
}) {
  const { asked, draft, onDraft } = props;
  const ids = useId();
  const say = useWords();
  const [tried, setTried] = useState(false);
  const [parts, setParts] = useState<InchParts>(partsFor(draft.number));
  const judged = judge(draft, asked, say);
  const wrong = tried && "says" in judged ? judged : undefined;
  const change = (next: Draft) => {
    setTried(false);
    onDraft(next);
  };
  const take = (event: FormEvent) => {
    event.preventDefault();
    if ("says" in judged) setTried(true);
    else props.onTake(judged.answer);
  };
  const typed = readNumber(draft.number);
  const low = inUnit(asked.low, asked, draft.unit);
  const high = inUnit(asked.high, asked, draft.unit);
  return (
    <form className="quantity" id={props.form} onSubmit={take} noValidate>
      <div className="quantity-line">
        <button
          type="button"
          className="tap quantity-step"
          aria-label={say("ask.less")}
          onClick={() => change(stepped(draft, asked, -1, parts))}
        >
          −
        </button>
        <input
          className="quantity-number"
          type="text"
          inputMode={draft.unit === "inch" ? "text" : "decimal"}
          autoComplete="off"
          spellCheck={false}
          aria-labelledby={props.labelledBy}
          aria-describedby={`${ids}-range ${ids}-wrong ${props.describedBy ?? ""}`}
          aria-invalid={wrong !== undefined}
          value={draft.number}
          onChange={(event) => change({ ...draft, number: event.target.value })}
        />
        <button
          type="button"
          className="tap quantity-step"
          aria-label={say("ask.more")}
          onClick={() => change(stepped(draft, asked, 1, parts))}
        >
          +
        </button>
        <UnitOf asked={asked} draft={draft} onDraft={change} />
      </div>
      {draft.unit === "inch" && (
        <InchTaps number={draft.number} parts={parts} onNumber={(number) => change({ ...draft, number })} />
      )}
      {low !== undefined && high !== undefined && draft.unit !== "inch" && (
        <MeasureStick
          low={low}
          high={high}
          value={"says" in typed ? undefined : typed.value}
          unit={draft.unit}
        />
      )}
      <p className="quantity-range" id={`${ids}-range`}>
        {rangeWords(asked, draft.unit, say)}
      </p>
      <p className="quantity-same" aria-live="polite">
        {sameWords(draft, asked, say)}
      </p>
      <div className="answer-wrong" id={`${ids}-wrong`} role="alert">
        {wrong && (
          <p>
            {wrong.says} {say("ask.kept")}
          </p>
        )}
        {wrong?.instead && (
          <button type="button" className="tap" onClick={() => change(wrong.instead ?? draft)}>
            {say("ask.it-is", { value: withUnit(wrong.instead.number, wrong.instead.unit) })}
          </button>
        )}
      </div>
      <div className="quantity-more">
        <ToleranceField
          asked={asked}
          draft={draft}
          onTolerance={(tolerance) => change({ ...draft, tolerance })}
        />
        {draft.unit === "inch" && (
          <button type="button" className="tap is-soft" onClick={() => setParts(parts === 16 ? 32 : 16)}>
            {say(parts === 16 ? "ask.finer" : "ask.coarser")}
          </button>
        )}
      </div>
    </form>
  );
}

/** Changing the unit keeps the digits: the one who taps it has read them off the other side of the tape. */
function UnitOf(props: {
  readonly asked: QuantityAnswer;
  readonly draft: Draft;
  readonly onDraft: (draft: Draft) => void;
}) {
  const { asked, draft } = props;
  const say = useWords();
  const units = unitsFor(asked.unit);
  const all = units.includes(draft.unit) ? units : [...units, draft.unit];
  if (all.length === 1)
    return asked.unit === "count" ? null : <span className="quantity-unit">{asked.unit}</span>;
  return (
    <PickOne
      legend={say("ask.unit")}
      options={all.map((unit) => ({ value: unit, says: unit }))}
      value={draft.unit}
      onPick={(unit) => props.onDraft({ ...draft, unit })}
    />
  );
}

function rangeWords(asked: QuantityAnswer, unit: string, say: Say): string {
  const ends = { low: bookText(asked.low, asked), high: bookText(asked.high, asked) };
  const low = inUnit(asked.low, asked, unit);
  const high = inUnit(asked.high, asked, unit);
  const other =
    unit === asked.unit || low === undefined || high === undefined
      ? undefined
      : { low2: inWords(low, unit), high2: `${inWords(high, unit)} ${unit}` };
  const span = other === undefined ? say("ask.range", ends) : say("ask.range-about", { ...ends, ...other });
  return asked.resolution === undefined
    ? span
    : `${span} ` +
        say("ask.measure-to", { resolution: bookText(asked.resolution, asked).replace(/ apart$/, "") });
}

/** Inches as a tape shows them. */
const inWords = (value: number, unit: string): string =>
  unit === "inch" ? writeSixteenths(value) : writeNumber(value, 3);

/** What an answer in another unit comes to in the book's: shown, so that a slip of unit is seen. */
function sameWords(draft: Draft, asked: QuantityAnswer, say: Say): string {
  const typed = readNumber(draft.number);
  if ("says" in typed || draft.unit === asked.unit) return "";
  const value = convert(typed.value, draft.unit, asked.unit);
  return value === undefined
    ? ""
    : say("ask.same", {
        typed: withUnit(typed.text, draft.unit),
        value: withUnit(writeNumber(value, 5), asked.unit),
      });
}

const bookText = (text: string, asked: QuantityAnswer): string =>
  /[\p{L}°%]/u.test(text) ? text : withUnit(text, asked.unit);

function inUnit(text: string, asked: QuantityAnswer, unit: string): number | undefined {
  const value = leading(text);
  return value === undefined ? undefined : convert(value, asked.unit, unit);
}
