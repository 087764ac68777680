// One job of the shelf as its entries make it: answers, the card as it was signed, what was used,
// photographs, and what came after the signing. It can be worked again by the book that it was made by, and
// laid alongside in the sheet.
import { useEffect, useState } from "react";
import type { JobEntry } from "../../../core/record.ts";
import type { Agreement, JobFull } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import { when } from "./edition-words.ts";
import { againWords, agreementWords, entryWords } from "./job-words.ts";

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function JobRecordPart(props: {
  readonly client: HostClient;
  readonly id: string;
  /** Rises with every delivery, so that the record is loaded anew. */
  readonly deliveries: number;
  /** Name of the book on the bench. */
  readonly book: string;
  readonly onLay: (answers: Answers, name: string) => void;
}) {
  const { client, id } = props;
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
  }, [client, id, props.deliveries]);
  const workAgain = (): void => {
    setAgain("asked");
    client.again(id).then(setAgain, (cause: unknown) => {
      setAgain(undefined);
      setTrouble(sentence(cause));
    });
  };
  if (trouble !== "" && full === undefined) return <p role="alert">{trouble}</p>;
  if (full === undefined || full.job.id !== id) return <p role="status">Asking the host…</p>;
  const { job } = full;
  const { signed } = job;
  return (
    <article className="job-record" aria-labelledby="job-record-heading">
      <h3 id="job-record-heading">{job.title || "A job without a name"}</h3>
      <p className="record-note">
        {job.book
          ? `${job.book.name}${job.book.edition === undefined ? "" : `, edition ${job.book.edition}`}${job.book.sealed ? ", sealed" : ", not sealed"}`
          : "no book known"}
        ; begun {when(job.begun)}, last changed {when(job.changed)}.
      </p>
      <p>
        {signed ? (
          <>
            <b>Signed</b> by {signed.name}, {when(signed.at)}; {agreementWords(full.agreement)}.
          </>
        ) : (
          "Not signed yet."
        )}
      </p>
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
      {again !== undefined && again !== "asked" && (
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
      )}
      <Part heading="Answers">
        {Object.keys(job.answers).length === 0 ? (
          <p className="record-note">none</p>
        ) : (
          <dl className="job-pairs">
            {Object.entries(job.answers).map(([ask, text]) => (
              <div key={ask}>
                <dt>
                  <code>{ask}</code>
                </dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
        )}
      </Part>
      {signed && (
        <Part heading="The card as it was signed">
          {signed.card.stops.map((line) => (
            <p key={line} className="job-stop">
              <b>Stop:</b> {line}
            </p>
          ))}
          {signed.card.cautions.map((line) => (
            <p key={line}>
              <b>Caution:</b> {line}
            </p>
          ))}
          <ol className="job-steps">
            {signed.card.steps.map((line, n) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a signed card never changes, and lines may repeat.
              <li key={n}>{line}</li>
            ))}
          </ol>
          <details>
            <summary>{signed.card.values.length} values</summary>
            <dl className="job-pairs">
              {signed.card.values.map(({ name, text }) => (
                <div key={name}>
                  <dt>
                    <code>{name}</code>
                  </dt>
                  <dd>{text}</dd>
                </div>
              ))}
            </dl>
          </details>
          {signed.note && <p>{signed.note}</p>}
        </Part>
      )}
      {job.used.length > 0 && (
        <Part heading="What was used">
          <ul>
            {job.used.map((one) => (
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
      )}
      {job.photos.length > 0 && (
        <Part heading="Photographs">
          <ul className="job-photos">
            {job.photos.map((one) => (
              <li key={one.photo}>
                {full.missingPhotos.includes(one.photo) ? (
                  <p className="record-note">not delivered yet</p>
                ) : (
                  <a href={client.photoAddress(one.photo)} target="_blank" rel="noreferrer">
                    <img
                      src={client.photoAddress(one.photo)}
                      alt={one.caption || "Photograph"}
                      loading="lazy"
                    />
                  </a>
                )}
                <p>{[one.shows, one.caption].filter(Boolean).join(": ")}</p>
              </li>
            ))}
          </ul>
        </Part>
      )}
      {job.notes.length > 0 && (
        <Part heading="Notes">
          <ul>
            {job.notes.map((one) => (
              <li key={one.line}>
                {one.text} <span className="record-note">{when(one.at)}</span>
              </li>
            ))}
          </ul>
        </Part>
      )}
      {job.after.length > 0 && (
        <Part heading="After the signing">
          <ul>
            {job.after.map((entry) => (
              <li key={entry.id}>
                <span className="record-note">{when(entry.at)}</span> {entryWords(entry as JobEntry)}
              </li>
            ))}
          </ul>
        </Part>
      )}
    </article>
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
