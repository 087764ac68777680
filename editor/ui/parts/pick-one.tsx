// A short row of choices of which one holds, drawn as stops on a measuring stick.
import { useId } from "react";
import "./parts.css";

export interface Option<Choice extends string> {
  readonly value: Choice;
  readonly says: string;
}

/** Native radio buttons: arrow keys move, and each stop is at least 44 px high. */
export function PickOne<Choice extends string>(props: {
  /** Read aloud before the choices; drawn only if `legendShown`. */
  readonly legend: string;
  readonly legendShown?: boolean;
  readonly options: readonly Option<Choice>[];
  readonly value: Choice;
  readonly onPick: (value: Choice) => void;
}) {
  const group = useId();
  return (
    <fieldset className="pick-one">
      <legend className={props.legendShown ? "pick-one-legend" : "out-of-sight"}>{props.legend}</legend>
      <span className="pick-one-stick">
        {props.options.map((option) => (
          <label key={option.value} className="pick-one-stop">
            <input
              type="radio"
              name={group}
              value={option.value}
              checked={option.value === props.value}
              onChange={() => props.onPick(option.value)}
            />
            <span>{option.says}</span>
          </label>
        ))}
      </span>
    </fieldset>
  );
}
