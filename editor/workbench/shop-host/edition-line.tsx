// One sealed edition: its number, who sealed it when and why, what it was sealed in spite of, and its print.
import { useState } from "react";
import type { EditionLine as Edition } from "../../../core/schemas/host.ts";
import { faultCount, faultWord, provedWords, when } from "./edition-words.ts";

export interface EditionDoes {
  /** Holds the text on the bench against it. */
  readonly onHold: (edition: Edition) => void;
  /** Puts its text on the bench, as the next edition begun. */
  readonly onTake?: (edition: Edition) => void;
}

export function EditionLine(props: EditionDoes & { readonly edition: Edition }) {
  const { edition } = props;
  const [open, setOpen] = useState(false);
  const faulty = edition.faults.length > 0;
  // Editions sealed before the host reckoned fingerprints are named by the print of their text alone.
  const fingerprint = edition.standing.fingerprint ?? edition.print;
  return (
    <li className={`sealed-line${faulty ? " is-faulty" : ""}`}>
      <p className="sealed-number">
        <span className="label">Edition</span>
        <b>{edition.number}</b>
      </p>
      <div className="sealed-said">
        <p className="sealed-why">{edition.why}</p>
        <p className="record-note">
          Sealed by {edition.who}, {when(edition.at)}; {provedWords(edition.standing)}
          {edition.stands
            .map(
              (one) =>
                `; stands on ${one.name}${one.edition === undefined ? "" : `, edition ${one.edition}`}`,
            )
            .join("")}
          .
        </p>
        {faulty && (
          <p className="sealed-reason">
            <b>Sealed with {faultCount(edition.faults.length)}:</b> {edition.reason}
          </p>
        )}
        {open && (
          <div className="sealed-more">
            <p>
              <span className="label">Fingerprint, of its text and of all that it stands on</span>{" "}
              <code className="sealed-print">{fingerprint}</code>
            </p>
            {faulty && (
              <ul className="sealed-faults">
                {edition.faults.map((fault) => (
                  <li key={`${fault.is} ${fault.says}`}>
                    <b>{faultWord(fault)}</b> {fault.says}
                    {fault.line !== undefined && ` (line ${fault.line})`}
                  </li>
                ))}
              </ul>
            )}
          </div>
        )}
        <p className="sealed-does no-print">
          <button type="button" className="button bare" aria-expanded={open} onClick={() => setOpen(!open)}>
            <code>{fingerprint.slice(0, 10)}…</code>
            <span className="out-of-sight"> fingerprint of edition {edition.number}</span>
            {faulty && ` and ${faultCount(edition.faults.length)}`}
          </button>
          <button type="button" className="button" onClick={() => props.onHold(edition)}>
            Hold the text against it<span className="out-of-sight">: edition {edition.number}</span>
          </button>
          {props.onTake && (
            <button type="button" className="button" onClick={() => props.onTake?.(edition)}>
              Begin the next edition from it<span className="out-of-sight">: edition {edition.number}</span>
            </button>
          )}
        </p>
      </div>
    </li>
  );
}
