// The books of the shop's host in the panel of books: each with its newest edition and its draft, either of
// which opens.
import { useState } from "react";
import type { BookLine } from "../../../core/schemas/host.ts";
import { BeginLayer } from "../panels/begin-layer.tsx";
import type { ShopState } from "../store/shop.ts";
import { SignInLink, SignedInAs } from "./sign-in-link.tsx";
import { faultCount, when } from "./edition-words.ts";

export function HostBooks(props: {
  readonly state: ShopState;
  /** Name of the book on the bench. */
  readonly current: string;
  readonly onDraft: (book: string) => void;
  readonly onEdition: (book: string, number: number) => void;
  readonly onHistory: () => void;
  /** The text of a sealed edition, for a layer on it. */
  readonly textOf: (book: string, number: number) => Promise<string | undefined>;
  /** Left out where this person writes no drafts. */
  readonly onLayer?: ((text: string, name: string) => void) | undefined;
}) {
  const { state } = props;
  const [wanted, setWanted] = useState("");
  if (state.host === "none" || state.host === "unknown") return null;
  const found = state.books.filter((book) =>
    `${book.name} ${book.title}`.toLowerCase().includes(wanted.trim().toLowerCase()),
  );
  return (
    <section className="host-books" aria-labelledby="host-books">
      <h3 id="host-books" className="label">
        On the shop’s host
      </h3>
      {state.host !== "there" && (
        <p className="why-side-title">
          {state.host === "refused" ? (
            <>
              Sign in to see the shop’s books. <SignInLink />
            </>
          ) : (
            "The host does not answer. What is typed is kept in this browser and saved there later."
          )}
        </p>
      )}
      {state.draft !== undefined && state.draft.version > 0 && (
        <p className="side-does">
          <button type="button" className="button" onClick={props.onHistory}>
            History of this draft, version {state.draft.version}
          </button>
        </p>
      )}
      {state.books.length > 8 && (
        <input
          type="search"
          className="field"
          aria-label="Find in the host's books"
          placeholder="Find a book"
          value={wanted}
          onChange={(event) => setWanted(event.target.value)}
        />
      )}
      {state.host === "there" && state.books.length === 0 && (
        <p className="why-side-title">
          None yet. A book comes here with its first change, or when it is sealed.
        </p>
      )}
      <ul className="pick-list">
        {found.map((book) => (
          <li key={book.name} className="host-book">
            <p>
              <b>{book.name}</b> <span>{book.title}</span>
            </p>
            {book.draft && (
              <button
                type="button"
                className="host-book-open"
                aria-current={
                  (book.name === props.current && state.draft?.version === book.draft.version) || undefined
                }
                onClick={() => props.onDraft(book.name)}
              >
                {draftWords(book)}
              </button>
            )}
            {book.edition && (
              <button
                type="button"
                className="host-book-open"
                onClick={() => props.onEdition(book.name, book.edition!.number)}
              >
                {editionWords(book)}
              </button>
            )}
            {book.edition && props.onLayer && (
              <BeginLayer
                on={`${book.name}, edition ${book.edition.number}`}
                text={() => props.textOf(book.name, book.edition!.number)}
                others={state.books.map((one) => one.name)}
                onLayer={props.onLayer}
              />
            )}
          </li>
        ))}
      </ul>
      {state.host === "there" && state.you && <SignedInAs you={state.you} />}
    </section>
  );
}

const draftWords = ({ draft }: BookLine): string =>
  draft === undefined ? "" : `Open the draft, version ${draft.version}, by ${draft.who}, ${when(draft.at)}`;
const editionWords = ({ edition }: BookLine): string =>
  edition === undefined
    ? ""
    : `Open a copy of edition ${edition.number}, sealed ${when(edition.at)}` +
      (edition.faults > 0 ? ` with ${faultCount(edition.faults)}` : "");
