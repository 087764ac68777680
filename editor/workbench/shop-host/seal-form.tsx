// Sealing the text on the bench: its number, what is new, what stands against it and the reason where
// something does. The host reads and proves the book itself before it seals; what it finds is listed here as
// well.
import { useState } from "react";
import type { FormEvent } from "react";
import type { BookLine, Fault } from "../../../core/schemas/host.ts";
import type { ProvingState } from "../../client/engine/proof-client.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import type { Shop } from "../store/shop.ts";
import { headOf } from "../../../engine/index.ts";
import { nextNumber, withEdition } from "./edition-text.ts";
import { faultCount, faultWord, faultsSeen } from "./edition-words.ts";

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function SealForm(props: {
  readonly shop: Shop;
  readonly who: string;
  readonly snapshot: Snapshot;
  readonly text: string;
  readonly proving: ProvingState;
  /** Number of the newest sealed edition. */
  readonly last: number | undefined;
  /** The books of the host: a layer is read there upon sealed editions and nothing else. */
  readonly books: readonly BookLine[];
  readonly onText: (text: string) => void;
  readonly onDone: () => void;
}) {
  const { snapshot, text, proving } = props;
  const [why, setWhy] = useState("");
  const [reason, setReason] = useState("");
  const [told, setTold] = useState<{ readonly text: string; readonly faults: readonly Fault[] }>();
  const [trouble, setTrouble] = useState("");
  const [sealing, setSealing] = useState(false);
  const number = nextNumber(text, props.last);
  const standing = proving.standing?.text === text ? proving.standing.view : undefined;
  const faults = told?.text === text ? told.faults : faultsSeen(snapshot, standing);
  const read = snapshot.text === text;
  const unsealed = unsealedUnder(text, props.books);
  const proved = standing?.goals.filter((goal) => goal.verdict === "proved").length ?? 0;
  const seal = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (why.trim() === "") {
      setTrouble("Write what is new in this edition.");
      return;
    }
    if (faults.length > 0 && reason.trim() === "") {
      setTrouble(
        `There ${faults.length === 1 ? "is 1 fault" : `are ${faults.length} faults`}. Write why it is sealed in spite of that.`,
      );
      return;
    }
    setTrouble("");
    setSealing(true);
    const sealed = withEdition(text, number);
    try {
      const answer = await props.shop.client.seal(snapshot.name, {
        text: sealed,
        why: why.trim(),
        ...(reason.trim() === "" ? {} : { reason: reason.trim() }),
      });
      // The number stands in the text that was sealed, so it shall in the draft.
      if (sealed !== text) props.onText(sealed);
      if ("sealed" in answer) props.onDone();
      else {
        setTold({ text: sealed, faults: answer.refused.faults });
        setTrouble(answer.refused.says);
      }
    } catch (cause) {
      setTrouble(cause instanceof HostRefusal ? cause.message : "It could not be sealed.");
    } finally {
      setSealing(false);
    }
  };
  return (
    <form className="seal-form" aria-labelledby="seal-heading" onSubmit={(event) => void seal(event)}>
      <h3 id="seal-heading">Seal the text on the bench as edition {number}</h3>
      <p className="record-note">
        A sealed edition is never changed. It goes to every tablet that works by this book; jobs begun by an
        older edition stay with theirs. What is wrong in it is mended by the next one. It is sealed by{" "}
        {props.who}.
      </p>
      {unsealed !== undefined && (
        <p role="note">
          This is a layer on {unsealed}, and the host has no sealed edition of that, so neither it nor a
          tablet can read the layer. Open that book under Books, seal it, then come back and seal this one.
        </p>
      )}
      <label className="editions-field seal-field">
        <span className="label">What is new, for those who work by it</span>
        <textarea
          className="field"
          rows={2}
          maxLength={4000}
          required
          value={why}
          onChange={(event) => setWhy(event.target.value)}
        />
      </label>
      <section aria-labelledby="seal-faults">
        <h4 id="seal-faults" className="label">
          What stands against it
        </h4>
        <p role="status">
          {told?.text === text
            ? `The host found ${faultCount(faults.length)}.`
            : !read
              ? "The text is being read."
              : [
                  faults.length === 0
                    ? "The checker finds no fault, and every worked example comes out as it says."
                    : `${faultCount(faults.length)} so far.`,
                  standing === undefined
                    ? "It is not proved yet."
                    : standing.done
                      ? `${proved} of ${standing.goals.length} goals are proved.`
                      : `Being proved: ${standing.settled} of ${standing.all} settled.`,
                  standing?.done === true
                    ? ""
                    : "It can be sealed meanwhile: the host proves it itself, and asks for a reason where something is broken or not proved.",
                ].join(" ")}
        </p>
        {faults.length > 0 && (
          <ul className="sealed-faults">
            {faults.map((fault) => (
              <li key={`${fault.is} ${fault.says}`}>
                <b>{faultWord(fault)}</b> {fault.says}
                {fault.line !== undefined && ` (line ${fault.line})`}
              </li>
            ))}
          </ul>
        )}
      </section>
      {faults.length > 0 && (
        <label className="editions-field seal-field">
          <span className="label">
            Why it is sealed in spite of{" "}
            {faults.length === 1 ? "this fault" : `these ${faults.length} faults`}; this stays beside the
            edition for good
          </span>
          <textarea
            className="field"
            rows={2}
            maxLength={4000}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </label>
      )}
      {trouble !== "" && (
        <p className="seal-trouble" role="alert">
          {trouble}
        </p>
      )}
      <p className="sealed-does">
        <button type="submit" className="button main" disabled={sealing || !read}>
          {sealing ? "The host reads and proves it…" : `Seal edition ${number}`}
        </button>
        <button type="button" className="button" onClick={props.onDone} disabled={sealing}>
          Not now
        </button>
      </p>
    </form>
  );
}

/**
 * The book that a layer stands on, where the host has no edition of it that reaches the one named: "house,
 * edition 3".
 */
function unsealedUnder(text: string, books: readonly BookLine[]): string | undefined {
  const under = headOf(text)?.amends;
  if (under === undefined) return undefined;
  const sealed = books.find((book) => book.name === under.name)?.edition?.number ?? 0;
  return sealed >= (under.edition ?? 1)
    ? undefined
    : `${under.name}${under.edition === undefined ? "" : `, edition ${under.edition}`}`;
}
