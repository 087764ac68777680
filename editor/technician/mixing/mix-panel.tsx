// One mix at the cup: type what is really in the cup and read what goes in; then the cups one after the
// other, each with its time.
import { useState } from "react";
import type { TimerLine } from "../../../core/record.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { useWords } from "../../ui/words/words.ts";
import { AmountField, amountOf, nothingTyped } from "./amount-field.tsx";
import { Batches } from "./batches.tsx";
import { Judgement, Reads, TooMuch } from "./cup-reads.tsx";
import { baseFor, fillerFor, hardenerFor, isTooMuch } from "./mix.ts";
import type { Mix } from "./mix.ts";

export interface MixPanelProps {
  readonly mix: Mix;
  readonly baseName: string;
  readonly hardenerName: string;
  readonly fillerName: string | undefined;
  readonly timers: readonly TimerLine[];
  readonly onStart: (timer: string, says: string, ends: number) => void;
}

export function MixPanel(props: MixPanelProps) {
  const { mix, baseName, hardenerName, fillerName, timers, onStart } = props;
  const say = useWords();
  const [first, setFirst] = useState<"base" | "hardener">("base");
  const [base, setBase] = useState(nothingTyped(mix.base));
  const [hardener, setHardener] = useState(nothingTyped(mix.hardener));
  const inCup = { base: amountOf(base, mix.base), hardener: amountOf(hardener, mix.hardener) };
  return (
    <article className="mix">
      <h4>{mix.title || `${baseName} + ${hardenerName}`}</h4>
      <p className="mix-card">
        {say("mix.by-card", { base: mix.base.text, baseName, hardener: mix.hardener.text, hardenerName })}
        {mix.filler && ` ${say("mix.filler-with", { filler: mix.filler.text, name: fillerName ?? "" })}`}
      </p>
      <PickOne
        legend={say("mix.which")}
        value={first}
        onPick={setFirst}
        options={[
          { value: "base", says: say("mix.base-first", { name: baseName }) },
          { value: "hardener", says: say("mix.hardener-first", { name: hardenerName }) },
        ]}
      />
      {first === "hardener" && (
        <AmountField
          label={say("mix.in-cup", { name: hardenerName })}
          name={hardenerName}
          part={mix.hardener}
          typed={hardener}
          onTyped={setHardener}
        />
      )}
      <AmountField
        label={say(first === "base" ? "mix.in-cup" : "mix.in-cup-too", { name: baseName })}
        name={baseName}
        part={mix.base}
        typed={base}
        onTyped={setBase}
      />
      <div className="mix-reads" aria-live="polite">
        {first === "base" ? <ForBase {...props} base={inCup.base} /> : <ForHardener {...props} {...inCup} />}
      </div>
      <Batches {...{ mix, baseName, hardenerName, timers, onStart }} />
    </article>
  );
}

/** The base is in the cup: what goes to it. Draws nothing until an amount is typed. */
function ForBase(props: MixPanelProps & { readonly base: number | undefined }) {
  const { mix, base, hardenerName, fillerName = "" } = props;
  const say = useWords();
  if (base === undefined) return null;
  if (isTooMuch(mix, base)) return <TooMuch mix={mix} />;
  return (
    <>
      <Reads
        does={`${say("mix.goes-in")}: ${hardenerName}`}
        amount={hardenerFor(mix, base)}
        part={mix.hardener}
        name={hardenerName}
        bead={mix.bead === undefined ? undefined : (mix.bead * base) / mix.base.amount}
      />
      {mix.filler && (
        <Reads
          does={`${say("mix.goes-in")}: ${fillerName}`}
          amount={fillerFor(mix, base) ?? 0}
          part={mix.filler}
          name={fillerName}
        />
      )}
      {base > mix.base.amount * 1.02 && <p className="mix-warn">{say("mix.bigger")}</p>}
    </>
  );
}

interface InCup {
  readonly base: number | undefined;
  readonly hardener: number | undefined;
}

/** The hardener is in the cup already: how much base it needs, or how the two in the cup fit each other. */
function ForHardener(props: MixPanelProps & InCup) {
  const { mix, base, hardener, baseName } = props;
  const say = useWords();
  if (hardener === undefined) return null;
  if (isTooMuch(mix, base ?? baseFor(mix, hardener))) return <TooMuch mix={mix} />;
  if (base !== undefined) return <Judgement {...props} base={base} hardener={hardener} />;
  return (
    <Reads
      does={say("mix.needs", { name: baseName })}
      amount={baseFor(mix, hardener)}
      part={mix.base}
      name={baseName}
    />
  );
}
