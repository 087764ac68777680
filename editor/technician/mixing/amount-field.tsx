// The field in which the amount of one part of a mix is typed, in any unit in which it can be measured out.
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { useWords } from "../../ui/words/words.ts";
import type { Measure } from "./mix-amounts.ts";
import { amountIn, unitsOf } from "./mix-amounts.ts";
import type { Part } from "./mix.ts";
import { inMeasure } from "./mix.ts";
import { readNumber } from "../../card/typed-number.ts";

export interface Typed {
  readonly text: string;
  readonly unit: string;
}

/** An empty field, in the first unit of the part. */
export const nothingTyped = (part: Part): Typed => ({ text: "", unit: unitsFor(part)[0] ?? "g" });

/** Units of the part's own measure first, and of the other where its density is known. */
function unitsFor(part: Part): readonly string[] {
  const also: readonly Measure[] =
    part.density === undefined || part.measure === "length"
      ? []
      : [part.measure === "mass" ? "volume" : "mass"];
  return [...unitsOf([part.measure]), ...unitsOf(also)];
}

/** What is typed, in the part's own measure; undefined while it is no amount. */
export function amountOf(typed: Typed, part: Part): number | undefined {
  const number = readNumber(typed.text);
  const read = "says" in number || number.value <= 0 ? undefined : amountIn(number.value, typed.unit);
  return read && inMeasure(read.amount, read.measure, part.measure, part.density);
}

export function AmountField({
  label,
  name,
  part,
  typed,
  onTyped,
}: {
  readonly label: string;
  readonly name: string;
  readonly part: Part;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
}) {
  const say = useWords();
  const number = readNumber(typed.text, say);
  const wrong =
    typed.text.trim() === ""
      ? undefined
      : "says" in number
        ? number.says
        : number.value <= 0
          ? say("mix.not-number")
          : undefined;
  return (
    <div className="mix-amount">
      <label>
        <span className="label">{label}</span>
        <input
          className="field mix-number"
          inputMode="decimal"
          value={typed.text}
          aria-invalid={wrong !== undefined}
          onChange={(event) => onTyped({ ...typed, text: event.currentTarget.value })}
        />
      </label>
      <PickOne
        legend={say("mix.unit", { name })}
        value={typed.unit}
        onPick={(unit) => onTyped({ ...typed, unit })}
        options={unitsFor(part).map((unit) => ({ value: unit, says: unit }))}
      />
      {wrong !== undefined && (
        <p className="panel-wrong" role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
