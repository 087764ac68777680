// The sealed editions of the open book, above what is held against each other: listed, searched, and the next
// one sealed.
import { useState } from "react";
import type { EditionLine as Edition } from "../../../core/schemas/host.ts";
import type { ProvingState } from "../../client/engine/proof-client.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Shop, ShopState } from "../store/shop.ts";
import { writes } from "../store/shop.ts";
import { EditionLine } from "./edition-line.tsx";
import type { EditionDoes } from "./edition-line.tsx";
import { editionMatches } from "./edition-words.ts";
import { SealForm } from "./seal-form.tsx";
import "./shop-host.css";

const atFirst = 3;

export function SealedPart(
  props: EditionDoes & {
    readonly shop: Shop;
    readonly state: ShopState;
    readonly snapshot: Snapshot;
    readonly text: string;
    readonly proving: ProvingState;
    readonly editions: readonly Edition[] | undefined;
    readonly readOnly: boolean;
    /** The form is open: the text shall be proved meanwhile. */
    readonly sealing: boolean;
    readonly onSealing: (open: boolean) => void;
    readonly onText: (text: string) => void;
  },
) {
  const { editions, snapshot, state } = props;
  const [shown, setShown] = useState(atFirst);
  const [wanted, setWanted] = useState("");
  const found = (editions ?? []).filter(
    (edition) => wanted.trim() === "" || editionMatches(edition, wanted.trim()),
  );
  const may = writes(state.you) && !props.readOnly;
  return (
    <section className="record editions sealed" aria-labelledby="sealed-heading">
      <header className="sealed-head">
        <h2 id="sealed-heading">Sealed editions of {snapshot.name || "this book"}</h2>
        <p role="status">
          {state.host === "away"
            ? "The host does not answer."
            : state.host === "refused"
              ? "Sign in to see them."
              : editions === undefined
                ? "Asking the host…"
                : editions.length === 0
                  ? "None is sealed yet."
                  : `${editions.length} sealed${wanted.trim() === "" ? "" : `, ${found.length} found`}.`}
        </p>
        {state.you !== undefined && !writes(state.you) && <p>Only a lead seals.</p>}
        {editions !== undefined && editions.length > atFirst && (
          <input
            type="search"
            className="field"
            aria-label="Find in editions"
            placeholder="Find in editions"
            value={wanted}
            onChange={(event) => {
              setWanted(event.target.value);
              setShown(atFirst);
            }}
          />
        )}
        {may && !props.sealing && editions !== undefined && (
          <button type="button" className="button main no-print" onClick={() => props.onSealing(true)}>
            Seal the next edition
          </button>
        )}
      </header>
      {props.sealing && may && state.you && (
        <SealForm
          shop={props.shop}
          who={state.you.name}
          snapshot={snapshot}
          text={props.text}
          proving={props.proving}
          last={editions?.[0]?.number}
          books={state.books}
          onText={props.onText}
          onDone={() => props.onSealing(false)}
        />
      )}
      {found.length > 0 && (
        <ol className="sealed-lines">
          {found.slice(0, shown).map((edition) => (
            <EditionLine
              key={edition.number}
              edition={edition}
              onHold={props.onHold}
              onTake={may ? props.onTake : undefined}
            />
          ))}
        </ol>
      )}
      {found.length > shown && (
        <p className="sealed-end no-print">
          <button type="button" className="button" onClick={() => setShown(shown + 40)}>
            {found.length - shown} more
          </button>
        </p>
      )}
    </section>
  );
}
