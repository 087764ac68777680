// How far off a measure may be: nothing is asked of one who is sure; one who is not taps the nearest of a few
// large ± buttons.
import { useState } from "react";
import { useWords } from "../ui/words/words.ts";
import { leading, stepOf, withUnit } from "./quantity-draft.ts";
import type { QuantityAnswer } from "./quantity-draft.ts";
import { convert } from "./other-units.ts";
import { fractionText, writeNumber } from "./typed-number.ts";
import type { Draft } from "../client/storage/stored-work.ts";

export function ToleranceField(props: {
  readonly asked: QuantityAnswer;
  readonly draft: Draft;
  readonly onTolerance: (tolerance: string) => void;
}) {
  const { asked, draft, onTolerance } = props;
  const say = useWords();
  const [open, setOpen] = useState(draft.tolerance !== "");
  if (!open)
    return (
      <button type="button" className="tap is-soft tolerance-open" onClick={() => setOpen(true)}>
        {say("ask.unsure")}
      </button>
    );
  const choices = tolerances(asked, draft.unit);
  return (
    <div className="tolerance" role="group" aria-label={say("ask.how-far")}>
      <p>{say("ask.how-far")}</p>
      <div className="tolerance-taps">
        {choices.map((one) => (
          <button
            key={one}
            type="button"
            className="tap is-soft"
            aria-pressed={draft.tolerance === one}
            onClick={() => onTolerance(one)}
          >
            ± {withUnit(one, draft.unit)}
          </button>
        ))}
        <label className="tolerance-other">
          <span>{say("ask.other-tolerance")}</span>
          <input
            type="text"
            inputMode={draft.unit === "inch" ? "text" : "decimal"}
            autoComplete="off"
            value={draft.tolerance}
            onChange={(event) => onTolerance(event.target.value)}
          />
          <span>{draft.unit}</span>
        </label>
        <button
          type="button"
          className="tap is-soft"
          onClick={() => {
            onTolerance("");
            setOpen(false);
          }}
        >
          {say("ask.exact")}
        </button>
      </div>
    </div>
  );
}

/**
 * Four amounts from what can just be read to ten times that, and none that swallows a quarter of the range.
 */
function tolerances(asked: QuantityAnswer, unit: string): readonly string[] {
  const low = convert(leading(asked.low) ?? 0, asked.unit, unit) ?? 0;
  const high = convert(leading(asked.high) ?? 0, asked.unit, unit) ?? 0;
  const room = Math.abs(high - low) / 4;
  if (unit === "inch")
    return [1, 2, 4, 8].filter((parts) => parts / 32 <= room).map((parts) => fractionText(parts, 32));
  const step = stepOf(unit, asked);
  return [1, 2, 5, 10]
    .map((times) => step * times)
    .filter((amount) => amount <= room)
    .map((amount) => writeNumber(amount, 6));
}
