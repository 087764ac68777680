// A measured answer: number, unit, and if known how far off it may be; checked while it is typed, never thrown away.
import { useId, useState } from "react";
import type { FormEvent } from "react";
import { PickOne } from "../parts/pick-one.tsx";
import { InchTaps } from "./inch-taps.tsx";
import { MeasureStick } from "./measure-stick.tsx";
import { convert, unitsFor } from "./other-units.ts";
import { judge, leading, stepped, withUnit } from "./quantity-draft.ts";
import type { Draft, QuantityAnswer } from "./quantity-draft.ts";
import { readNumber, writeNumber } from "./typed-number.ts";

export function QuantityField(props: {
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
  const [tried, setTried] = useState(false);
  const [around, setAround] = useState(draft.tolerance !== "");
  const judged = judge(draft, asked);
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
    <form className="quantity" onSubmit={take} noValidate>
      <div className="quantity-line">
        <button type="button" className="tap quantity-step" aria-label="Less" onClick={() => change(stepped(draft, asked, -1))}>−</button>
        <input
          className="quantity-number" type="text" inputMode={draft.unit === "inch" ? "text" : "decimal"} autoComplete="off" spellCheck={false}
          aria-labelledby={props.labelledBy} aria-describedby={`${ids}-range ${ids}-wrong ${props.describedBy ?? ""}`} aria-invalid={wrong !== undefined}
          value={draft.number} onChange={(event) => change({ ...draft, number: event.target.value })}
        />
        <button type="button" className="tap quantity-step" aria-label="More" onClick={() => change(stepped(draft, asked, 1))}>+</button>
        <UnitOf asked={asked} draft={draft} onDraft={change} />
      </div>
      {draft.unit === "inch" && <InchTaps number={draft.number} onNumber={(number) => change({ ...draft, number })} />}
      {low !== undefined && high !== undefined && draft.unit !== "inch" && (
        <MeasureStick low={low} high={high} value={"says" in typed ? undefined : typed.value} unit={draft.unit} />
      )}
      <p className="quantity-range" id={`${ids}-range`}>{rangeWords(asked, draft.unit)}</p>
      <p className="quantity-same" aria-live="polite">{sameWords(draft, asked)}</p>
      <div className="answer-wrong" id={`${ids}-wrong`} role="alert">
        {wrong && <p>{wrong.says} What you typed is kept.</p>}
        {wrong?.instead && (
          <button type="button" className="tap" onClick={() => change(wrong.instead ?? draft)}>
            It is {withUnit(wrong.instead.number, wrong.instead.unit)}
          </button>
        )}
      </div>
      <div className="quantity-end">
        <button type="submit" className="tap is-main">Take this answer</button>
        {around ? (
          <label className="quantity-around">
            <span>give or take ±</span>
            <input
              type="text" inputMode="decimal" autoComplete="off" value={draft.tolerance}
              onChange={(event) => change({ ...draft, tolerance: event.target.value })}
            />
            <span>{draft.unit}</span>
          </label>
        ) : (
          <button type="button" className="tap is-soft" onClick={() => setAround(true)}>± if you know how far off</button>
        )}
      </div>
    </form>
  );
}

/** Changing the unit keeps the digits: the one who taps it has read them off the other side of the tape. */
function UnitOf(props: { readonly asked: QuantityAnswer; readonly draft: Draft; readonly onDraft: (draft: Draft) => void }) {
  const { asked, draft } = props;
  const units = unitsFor(asked.unit);
  const all = units.includes(draft.unit) ? units : [...units, draft.unit];
  if (all.length === 1) return asked.unit === "count" ? null : <span className="quantity-unit">{asked.unit}</span>;
  return (
    <PickOne
      legend="Unit of this answer" options={all.map((unit) => ({ value: unit, says: unit }))}
      value={draft.unit} onPick={(unit) => props.onDraft({ ...draft, unit })}
    />
  );
}

function rangeWords(asked: QuantityAnswer, unit: string): string {
  const span = `From ${bookText(asked.low, asked)} to ${bookText(asked.high, asked)}`;
  const low = inUnit(asked.low, asked, unit);
  const high = inUnit(asked.high, asked, unit);
  const other = unit === asked.unit || low === undefined || high === undefined ? "" : ` (about ${writeNumber(low, 3)} to ${writeNumber(high, 3)} ${unit})`;
  return `${span}${other}.${asked.resolution === undefined ? "" : ` Measure to ${bookText(asked.resolution, asked).replace(/ apart$/, "")}.`}`;
}

/** What an answer in another unit comes to in the book's: shown, so that a slip of unit is seen. */
function sameWords(draft: Draft, asked: QuantityAnswer): string {
  const typed = readNumber(draft.number);
  if ("says" in typed || draft.unit === asked.unit) return "";
  const value = convert(typed.value, draft.unit, asked.unit);
  return value === undefined ? "" : `${withUnit(typed.text, draft.unit)} is ${withUnit(writeNumber(value, 5), asked.unit)}.`;
}

const bookText = (text: string, asked: QuantityAnswer): string =>
  /[\p{L}°%]/u.test(text) ? text : withUnit(text, asked.unit);

function inUnit(text: string, asked: QuantityAnswer, unit: string): number | undefined {
  const value = leading(text);
  return value === undefined ? undefined : convert(value, asked.unit, unit);
}
