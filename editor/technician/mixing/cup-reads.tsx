// What is read at the cup: how much goes in, and whether a cup that holds both parts is as the book allows.
import { useWords } from "../../ui/words/words.ts";
import type { Measure } from "./mix-amounts.ts";
import { dropsIn, mostInDrops, writeAmount } from "./mix-amounts.ts";
import type { MixPanelProps } from "./mix-panel.tsx";
import type { Mix, Part } from "./mix.ts";
import { inMeasure, isTooMuch, judgeCup } from "./mix.ts";

/** An amount in large figures, and the same in every unit in which it can be measured out. */
export function Reads({
  does,
  amount,
  part,
  name,
  bead,
}: {
  readonly does: string;
  readonly amount: number;
  readonly part: Part;
  readonly name: string;
  readonly bead?: number;
}) {
  const say = useWords();
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

/** In place of an amount that would make a cup larger than the book allows. */
export function TooMuch({ mix }: { readonly mix: Mix }) {
  const say = useWords();
  const amount = writeAmount(Math.max(mix.largest ?? 0, mix.base.amount), mix.base.measure).join(" · ");
  return <p className="mix-warn">{say("mix.too-much", { amount })}</p>;
}

/** A cup that holds both: what to add, and whether the book allows it as it stands. */
export function Judgement({
  mix,
  baseName,
  hardenerName,
  base,
  hardener,
}: MixPanelProps & { readonly base: number; readonly hardener: number }) {
  const say = useWords();
  const judged = judgeCup(mix, base, hardener);
  if (isTooMuch(mix, base + judged.addBase)) return <TooMuch mix={mix} />;
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
