// One mix at the cup: type what is really in the cup and read what goes in; then the cups one after the
// other, each with its time.
import { useState } from "react";
import type { TimerLine } from "../../../core/record.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { Batches } from "./batches.tsx";
import { amountIn, dropsIn, mostInDrops, unitsOf, writeAmount } from "./amounts.ts";
import type { Measure } from "./amounts.ts";
import { baseFor, fillerFor, hardenerFor, inMeasure, judgeCup } from "./mix.ts";
import type { Mix, Part } from "./mix.ts";
import { typedAmount } from "./typed-amount.ts";

export interface MixPanelProps {
  readonly mix: Mix;
  readonly baseName: string;
  readonly hardenerName: string;
  readonly fillerName: string | undefined;
  readonly timers: readonly TimerLine[];
  readonly onStart: (timer: string, says: string, ends: number) => void;
}

export function MixPanel(props: MixPanelProps) {
  const { mix, baseName, hardenerName, fillerName } = props;
  const say = useWords();
  const [way, setWay] = useState<"base" | "hardener">("base");
  const [base, setBase] = useState<Typed>({ text: "", unit: unitsFor(mix.base)[0] ?? "g" });
  const [hardener, setHardener] = useState<Typed>({ text: "", unit: unitsFor(mix.hardener)[0] ?? "g" });
  const inBase = amountOf(base, mix.base);
  const inHardener = amountOf(hardener, mix.hardener);
  return (
    <article className="mix">
      <h4>{mix.title || `${baseName} + ${hardenerName}`}</h4>
      <p className="mix-card">
        {say("mix.by-card", { base: mix.base.text, baseName, hardener: mix.hardener.text, hardenerName })}
        {mix.filler && ` ${say("mix.filler-with", { filler: mix.filler.text, name: fillerName ?? "" })}`}
      </p>
      <PickOne
        legend={say("mix.which")}
        value={way}
        onPick={setWay}
        options={[
          { value: "base", says: say("mix.base-first", { name: baseName }) },
          { value: "hardener", says: say("mix.hardener-first", { name: hardenerName }) },
        ]}
      />
      {way === "hardener" && (
        <AmountField
          label={say("mix.in-cup", { name: hardenerName })}
          name={hardenerName}
          part={mix.hardener}
          typed={hardener}
          onTyped={setHardener}
        />
      )}
      <AmountField
        label={
          way === "base" ? say("mix.in-cup", { name: baseName }) : say("mix.in-cup-too", { name: baseName })
        }
        name={baseName}
        part={mix.base}
        typed={base}
        onTyped={setBase}
      />
      <div className="mix-reads" aria-live="polite">
        {way === "base" && inBase !== undefined && (
          <>
            <Reads
              say={say}
              does={`${say("mix.goes-in")}: ${hardenerName}`}
              amount={hardenerFor(mix, inBase)}
              part={mix.hardener}
              name={hardenerName}
              bead={mix.bead === undefined ? undefined : (mix.bead * inBase) / mix.base.amount}
            />
            {mix.filler && (
              <Reads
                say={say}
                does={`${say("mix.goes-in")}: ${fillerName ?? ""}`}
                amount={fillerFor(mix, inBase) ?? 0}
                part={mix.filler}
                name={fillerName ?? ""}
              />
            )}
            {inBase > mix.base.amount * 1.02 && <p className="mix-warn">{say("mix.bigger")}</p>}
          </>
        )}
        {way === "hardener" && inHardener !== undefined && inBase === undefined && (
          <Reads
            say={say}
            does={say("mix.needs", { name: baseName })}
            amount={baseFor(mix, inHardener)}
            part={mix.base}
            name={baseName}
          />
        )}
        {way === "hardener" && inHardener !== undefined && inBase !== undefined && (
          <Judgement {...props} base={inBase} hardener={inHardener} />
        )}
      </div>
      <Batches
        mix={mix}
        baseName={baseName}
        hardenerName={hardenerName}
        timers={props.timers}
        onStart={props.onStart}
      />
    </article>
  );
}

interface Typed {
  readonly text: string;
  readonly unit: string;
}

/** Units of the part's own measure first, and of the other where its density is known. */
function unitsFor(part: Part): readonly string[] {
  const also: readonly Measure[] =
    part.density === undefined || part.measure === "length"
      ? []
      : [part.measure === "mass" ? "volume" : "mass"];
  return [...unitsOf([part.measure]), ...unitsOf(also)];
}

/** What is typed, in the part's own measure; undefined while it is no amount. */
function amountOf(typed: Typed, part: Part): number | undefined {
  const value = typedAmount(typed.text);
  const read = value === undefined ? undefined : amountIn(value, typed.unit);
  return read && inMeasure(read.amount, read.measure, part.measure, part.density);
}

function AmountField({
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
  const wrong = typed.text.trim() !== "" && typedAmount(typed.text) === undefined;
  return (
    <div className="mix-amount">
      <label>
        <span className="label">{label}</span>
        <input
          className="field mix-number"
          inputMode="decimal"
          value={typed.text}
          aria-invalid={wrong}
          onChange={(event) => onTyped({ ...typed, text: event.currentTarget.value })}
        />
      </label>
      <PickOne
        legend={say("mix.unit", { name })}
        value={typed.unit}
        onPick={(unit) => onTyped({ ...typed, unit })}
        options={unitsFor(part).map((unit) => ({ value: unit, says: unit }))}
      />
      {wrong && (
        <p className="panel-wrong" role="alert">
          {say("mix.not-number")}
        </p>
      )}
    </div>
  );
}

/** An amount in large figures, and the same in every unit in which it can be measured out. */
function Reads({
  say,
  does,
  amount,
  part,
  name,
  bead,
}: {
  readonly say: Say;
  readonly does: string;
  readonly amount: number;
  readonly part: Part;
  readonly name: string;
  readonly bead?: number;
}) {
  const [first = "", ...same] = writeAmount(amount, part.measure);
  const other: Measure = part.measure === "mass" ? "volume" : "mass";
  const otherAmount =
    part.measure === "length" ? undefined : inMeasure(amount, part.measure, other, part.density);
  const volume = part.measure === "volume" ? amount : other === "volume" ? otherAmount : undefined;
  return (
    <div className="mix-read">
      <p className="mix-does">{does}</p>
      <p className="mix-figure">{first}</p>
      <p className="mix-same">
        {[...same, ...(otherAmount === undefined ? [] : writeAmount(otherAmount, other))].join(" · ")}
      </p>
      {bead !== undefined && (
        <p className="mix-figure is-add">
          {say("mix.bead", { length: writeAmount(bead, "length").join(" · ") })}
        </p>
      )}
      {bead === undefined && volume !== undefined && volume <= mostInDrops && (
        <p className="mix-same">{say("mix.drops", { drops: dropsIn(volume) })}</p>
      )}
      {volume === undefined && part.measure === "mass" && (
        <p className="mix-same">{say("mix.no-density", { name })}</p>
      )}
    </div>
  );
}

/** A cup that holds both: what to add, and whether the book allows it as it stands. */
function Judgement({
  mix,
  baseName,
  hardenerName,
  base,
  hardener,
}: MixPanelProps & { readonly base: number; readonly hardener: number }) {
  const say = useWords();
  const judged = judgeCup(mix, base, hardener);
  const all = (amount: number, part: Part): string => writeAmount(amount, part.measure).join(" · ");
  return (
    <>
      {judged.addBase > 0 && (
        <p className="mix-figure is-add">
          {say("mix.add-base", { amount: all(judged.addBase, mix.base), name: baseName })}
        </p>
      )}
      {judged.addHardener > 0 && (
        <p className="mix-figure is-add">
          {say("mix.add-hardener", { amount: all(judged.addHardener, mix.hardener), name: hardenerName })}
        </p>
      )}
      {judged.addBase === 0 && judged.addHardener === 0 && (
        <p className="mix-figure is-add">{say("mix.as-card")}</p>
      )}
      <Limits judged={judged.limits} mix={mix} />
      {base + judged.addBase > mix.base.amount * 1.02 && <p className="mix-warn">{say("mix.bigger")}</p>}
    </>
  );
}

function Limits({
  judged,
  mix,
}: {
  readonly judged: ReturnType<typeof judgeCup>["limits"];
  readonly mix: Mix;
}) {
  const say = useWords();
  switch (judged) {
    case "over":
      return (
        <p className="mix-warn" role="alert">
          {say("mix.over", { limit: mix.most?.text ?? "" })}
        </p>
      );
    case "under":
      return (
        <p className="mix-warn" role="alert">
          {say("mix.under", { limit: mix.least?.text ?? "" })}
        </p>
      );
    case "within":
      return <p>{say("mix.within")}</p>;
    case "label":
      return <p>{say("mix.label")}</p>;
  }
}
