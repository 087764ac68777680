// One job of the host as its entries make it: answers, the card as it was signed, what was used,
// photographs, and what came after the signing. It can be worked again by the book that it was made by, and
// added to the sheet as a column.
import { useEffect, useState } from "react";
import type { JobRecord } from "../../../core/record.ts";
import { revisionsOf } from "../../../core/revisions.ts";
import type { Agreement, JobFull } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import { when } from "./edition-words.ts";
import { againWords, agreementWords, receivedWords, revisionWords } from "./job-words.ts";
import { EveryEntry } from "./every-entry.tsx";

interface JobRecordProps {
  readonly client: HostClient;
  readonly id: string;
  /** Rises with every delivery, so that the record is loaded again. */
  readonly deliveries: number;
  /** Name of the book on the bench. */
  readonly book: string;
  readonly onLay: (answers: Answers, name: string) => void;
}

/** The job as the host has it, and what came of working it again. */
function useJobRecord({ client, id, deliveries }: JobRecordProps) {
  const [full, setFull] = useState<JobFull>();
  const [again, setAgain] = useState<Agreement | "asked">();
  const [trouble, setTrouble] = useState("");
  // biome-ignore lint/correctness/useExhaustiveDependencies: loads again after each delivery.
  useEffect(() => {
    let over = false;
    client.job(id).then(
      (found) => {
        if (!over) {
          setFull(found);
          setTrouble("");
        }
      },
      (cause: unknown) => {
        if (!over) setTrouble(sentence(cause));
      },
    );
    return () => {
      over = true;
    };
  }, [client, id, deliveries]);
  const workAgain = (): void => {
    setAgain("asked");
    client.again(id).then(setAgain, (cause: unknown) => {
      setAgain(undefined);
      setTrouble(sentence(cause));
    });
  };
  return { full, again, trouble, workAgain };
}

export function JobRecordPart(props: JobRecordProps) {
  const { full, again, trouble, workAgain } = useJobRecord(props);
  if (trouble !== "" && full === undefined) return <p role="alert">{trouble}</p>;
  if (full === undefined || full.job.id !== props.id) return <p role="status">Asking the host…</p>;
  const { job } = full;
  const { signed } = job;
  return (
    <article className="job-record" aria-labelledby="job-record-heading">
      <JobHead full={full} />
      <p className="sealed-does">
        <button
          type="button"
          className="button"
          onClick={() => props.onLay(job.answers, job.title || `job ${job.id.slice(0, 8)}`)}
        >
          Lay it alongside in the sheet
        </button>
        {signed && (
          <button type="button" className="button" disabled={again === "asked"} onClick={workAgain}>
            {again === "asked" ? "Working it again…" : "Work it again"}
          </button>
        )}
      </p>
      {job.book !== undefined && job.book.name !== props.book && (
        <p className="record-note">
          In the sheet it is worked by the text on the bench, which is another book.
        </p>
      )}
      {trouble !== "" && <p role="alert">{trouble}</p>}
      {again !== undefined && again !== "asked" && <AgreementPart again={again} />}
      <Part heading="Answers">
        {Object.keys(job.answers).length === 0 ? (
          <p className="record-note">none</p>
        ) : (
          <Pairs pairs={Object.entries(job.answers)} />
        )}
      </Part>
      {signed && <SignedCard signed={signed} />}
      {job.used.length > 0 && <UsedPart used={job.used} />}
      {job.photos.length > 0 && (
        <PhotosPart photos={job.photos} missing={full.missingPhotos} addressOf={props.client.photoAddress} />
      )}
      {job.notes.length > 0 && (
        <Part heading="Notes">
          <ul>
            {job.notes.map((one) => (
              <li key={one.line}>
                {one.text}{" "}
                <span className="record-note">
                  {one.by !== undefined && `${one.by}, `}
                  {when(one.at)}
                  {one.received && `; ${receivedWords(one.received, one.by)}`}
                </span>
              </li>
            ))}
          </ul>
        </Part>
      )}
      {job.after.length > 0 && (
        <Part heading="After the signing">
          <p className="record-note">What came behind the signature changes nothing of the signed job.</p>
          <ul>
            {revisionsOf(job as JobRecord).map((one) => (
              <li key={one.entry.id}>
                {revisionWords(one)}{" "}
                <span className="record-note">
                  by the device {when(one.entry.at)}
                  {one.entry.received && `; ${receivedWords(one.entry.received, one.entry.by)}`}
                </span>
              </li>
            ))}
          </ul>
        </Part>
      )}
      <EveryEntry client={props.client} id={props.id} />
    </article>
  );
}

function JobHead({ full }: { readonly full: JobFull }) {
  const { book, otherBooks, title, begun, changed, signed } = full.job;
  return (
    <>
      <h3 id="job-record-heading">{title || "A job without a name"}</h3>
      <p className="record-note">
        {book
          ? `${book.name}${book.edition === undefined ? "" : `, edition ${book.edition}`}` +
            (book.sealed ? ", sealed" : ", not sealed")
          : "no book known"}
        ; begun {when(begun)}, last changed {when(changed)}.
      </p>
      <p>
        {signed ? (
          <>
            <b>Signed</b> as {signed.name}, by the device {when(signed.at)}
            {signed.received && `; ${receivedWords(signed.received, signed.by ?? signed.name)}`};{" "}
            {agreementWords(full.agreement)}.
          </>
        ) : (
          "Not signed yet."
        )}
      </p>
      {otherBooks !== undefined && (
        <p role="alert">
          This job was begun by {otherBooks.length + 1} books. The first that the host received holds.{" "}
          {otherBooks.length === 1 ? "The other is" : "The others are"}{" "}
          {otherBooks
            .map((one) => one.name + (one.edition === undefined ? "" : `, edition ${one.edition}`))
            .join("; ")}
          .
        </p>
      )}
    </>
  );
}

/** Whether the card comes out as it was signed, and what differs. */
function AgreementPart({ again }: { readonly again: Agreement }) {
  return (
    <section className={`job-again is-${again.says === "same" ? "same" : "other"}`} role="status">
      <p>
        <b>{againWords(again)}</b>
      </p>
      {again.differences.length > 0 && (
        <table className="weighed-outputs">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">As signed</th>
              <th scope="col">Now</th>
            </tr>
          </thead>
          <tbody>
            {again.differences.map((one) => (
              <tr key={`${one.of} ${one.of === "value" ? one.name : ""} ${one.then} ${one.now}`}>
                <th scope="row">{one.of === "value" ? one.name : one.of}</th>
                <td>
                  <s>{one.then ?? "none"}</s>
                </td>
                <td>
                  <b>{one.now ?? "none"}</b>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

type Job = JobFull["job"];

function SignedCard({ signed: { card, note } }: { readonly signed: NonNullable<Job["signed"]> }) {
  return (
    <Part heading="The card as it was signed">
      {card.stops.map((line) => (
        <p key={line} className="job-stop">
          <b>Stop:</b> {line}
        </p>
      ))}
      {card.cautions.map((line) => (
        <p key={line}>
          <b>Caution:</b> {line}
        </p>
      ))}
      {card.mayApply?.map((line) => (
        <p key={line}>
          <b>Caution that may apply:</b> {line}
        </p>
      ))}
      <ol className="job-steps">
        {card.steps.map((line, n) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a signed card never changes, and lines may repeat.
          <li key={n}>{line}</li>
        ))}
      </ol>
      <details>
        <summary>{card.values.length} values</summary>
        <Pairs pairs={card.values.map(({ name, text }) => [name, text])} />
      </details>
      {note && <p>{note}</p>}
    </Part>
  );
}

/** Names of the book with their texts. */
function Pairs({ pairs }: { readonly pairs: readonly (readonly [name: string, text: string])[] }) {
  return (
    <dl className="job-pairs">
      {pairs.map(([name, text]) => (
        <div key={name}>
          <dt>
            <code>{name}</code>
          </dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}

function UsedPart({ used }: { readonly used: Job["used"] }) {
  return (
    <Part heading="What was used">
      <ul>
        {used.map((one) => (
          <li key={one.line}>
            {[one.amount, one.what].filter(Boolean).join(" ")}
            {one.lot && (
              <>
                , lot <code>{one.lot}</code>
              </>
            )}
            {one.note && `; ${one.note}`}
          </li>
        ))}
      </ul>
    </Part>
  );
}

function PhotosPart(props: {
  readonly photos: Job["photos"];
  /** Those that the host does not have yet. */
  readonly missing: readonly string[];
  readonly addressOf: (photo: string) => string;
}) {
  return (
    <Part heading="Photographs">
      <ul className="job-photos">
        {props.photos.map((one) => (
          <li key={one.photo}>
            {props.missing.includes(one.photo) ? (
              <p className="record-note">not delivered yet</p>
            ) : (
              <a href={props.addressOf(one.photo)} target="_blank" rel="noreferrer">
                <img src={props.addressOf(one.photo)} alt={one.caption || "Photograph"} loading="lazy" />
              </a>
            )}
            <p>{[one.shows, one.caption].filter(Boolean).join(": ")}</p>
          </li>
        ))}
      </ul>
    </Part>
  );
}

function Part(props: { readonly heading: string; readonly children: React.ReactNode }) {
  return (
    <section className="job-part">
      <h4 className="label">{props.heading}</h4>
      {props.children}
    </section>
  );
}

const sentence = (cause: unknown): string =>
  cause instanceof HostRefusal ? cause.message : "The host does not answer.";
