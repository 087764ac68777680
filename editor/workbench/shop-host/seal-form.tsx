// Sealing the text on the bench: its number, what is new, what stands against it and the reason where
// something does. The host reads and proves the book itself before it seals; what it finds is listed here as
// well.
import { useState } from "react";
import type { FormEvent } from "react";
import type { BookLine, Fault } from "../../../core/schemas/host.ts";
import type { VerificationView } from "../../../core/view.ts";
import type { ProvingState } from "../../client/engine/proof-client.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import type { Shop } from "../store/shop.ts";
import { headOf } from "../../../engine/index.ts";
import { useSealProgress } from "./use-seal-progress.ts";
import { nextNumber, withEdition } from "./edition-text.ts";
import { faultCount, faultWord, faultsSeen, sealingWords } from "./edition-words.ts";

interface SealFormProps {
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
}

/** What is typed into the form, what is wrong with it, and the sealing itself. */
function useSealForm({ shop, snapshot, text, proving, last, onText, onDone }: SealFormProps) {
  const [why, setWhy] = useState("");
  const [reason, setReason] = useState("");
  const [answered, setAnswered] = useState<{ readonly text: string; readonly faults: readonly Fault[] }>();
  const [trouble, setTrouble] = useState("");
  const [sealing, setSealing] = useState(false);
  const number = nextNumber(text, last);
  const verification = proving.standing?.text === text ? proving.standing.view : undefined;
  const byHost = answered?.text === text;
  const faults = byHost ? answered.faults : faultsSeen(snapshot, verification);
  const send = async (): Promise<void> => {
    setTrouble("");
    setSealing(true);
    const sealed = withEdition(text, number);
    try {
      const answer = await shop.client.seal(snapshot.name, {
        text: sealed,
        why: why.trim(),
        ...(reason.trim() === "" ? {} : { reason: reason.trim() }),
      });
      // The number is in the text that was sealed, so it shall be in the draft.
      if (sealed !== text) onText(sealed);
      if ("sealed" in answer) onDone();
      else {
        setAnswered({ text: sealed, faults: answer.refused.faults });
        setTrouble(answer.refused.says);
      }
    } catch (cause) {
      setTrouble(cause instanceof HostRefusal ? cause.message : "It could not be sealed.");
    } finally {
      setSealing(false);
    }
  };
  const seal = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (why.trim() === "") setTrouble("Write what is new in this edition.");
    else if (faults.length > 0 && reason.trim() === "") {
      const there = faults.length === 1 ? "is 1 fault" : `are ${faults.length} faults`;
      setTrouble(`There ${there}. Write why it is sealed in spite of that.`);
    } else await send();
  };
  const read = snapshot.text === text;
  const fields = { why, setWhy, reason, setReason };
  return { fields, number, verification, byHost, faults, read, trouble, sealing, seal };
}

export function SealForm(props: SealFormProps) {
  const { fields, number, faults, read, trouble, sealing, seal, ...found } = useSealForm(props);
  const unsealed = unsealedUnder(props.text, props.books);
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
          value={fields.why}
          onChange={(event) => fields.setWhy(event.target.value)}
        />
      </label>
      <SealFaults faults={faults} read={read} {...found} />
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
            value={fields.reason}
            onChange={(event) => fields.setReason(event.target.value)}
          />
        </label>
      )}
      {trouble !== "" && (
        <p className="seal-trouble" role="alert">
          {trouble}
        </p>
      )}
      {sealing && <SealingProgress shop={props.shop} book={props.snapshot.name} />}
      <p className="sealed-does">
        <button type="submit" className="button main" disabled={sealing || !read}>
          {sealing ? "Sealing…" : `Seal edition ${number}`}
        </button>
        <button type="button" className="button" onClick={props.onDone} disabled={sealing}>
          Not now
        </button>
      </p>
    </form>
  );
}

/** What the host is doing meanwhile, in a sentence and as a bar. */
function SealingProgress({ shop, book }: { readonly shop: Shop; readonly book: string }) {
  const progress = useSealProgress(shop.client, book, true);
  const proving = progress?.is === "proving" ? progress : undefined;
  return (
    <div className="progress seal-progress">
      <p className="progress-says" role="status">
        {sealingWords(progress)}
      </p>
      <progress
        className="progress-rule"
        aria-label="Goals settled by the host"
        max={Math.max(proving?.all ?? 1, 1)}
        value={proving?.settled ?? 0}
      />
    </div>
  );
}

interface SealFound {
  readonly faults: readonly Fault[];
  /** Whether the engine has read this text. */
  readonly read: boolean;
  /** Whether the faults are those that the host found. */
  readonly byHost: boolean;
  readonly verification: VerificationView | undefined;
}

function SealFaults(found: SealFound) {
  const { faults } = found;
  return (
    <section aria-labelledby="seal-faults">
      <h4 id="seal-faults" className="label">
        What stands against it
      </h4>
      <p role="status">{foundWords(found)}</p>
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
  );
}

/** How far the text is checked and proved, in sentences. */
function foundWords({ faults, read, byHost, verification }: SealFound): string {
  if (byHost) return `The host found ${faultCount(faults.length)}.`;
  if (!read) return "The text is being read.";
  const checked =
    faults.length === 0
      ? "The checker finds no fault, and every worked example comes out as it says."
      : `${faultCount(faults.length)} so far.`;
  const proved = verification?.goals.filter((goal) => goal.verdict === "proved").length ?? 0;
  const proof =
    verification === undefined
      ? "It is not proved yet."
      : verification.done
        ? `${proved} of ${verification.goals.length} goals are proved.`
        : `Being proved: ${verification.settled} of ${verification.all} settled.`;
  const meanwhile =
    verification?.done === true
      ? ""
      : "It can be sealed meanwhile: the host proves it itself, and asks for a reason where something is " +
        "broken or not proved.";
  return [checked, proof, meanwhile].join(" ");
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
