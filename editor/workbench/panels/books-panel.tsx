// The books kept in this browser and those that come with the program; opening from a file and saving to one.
import { useState } from "react";
import type { WorkbenchState } from "../store/document.ts";
import { BeginLayer } from "./begin-layer.tsx";

export function BooksPanel(props: {
  readonly current: string;
  readonly books: WorkbenchState["books"];
  readonly shipped: readonly string[];
  readonly onOpen: (key: string) => void;
  readonly onShipped: (name: string) => void;
  readonly onFile: () => void;
  readonly onSave: () => void;
  readonly onNew: () => void;
  readonly onDrop: (key: string) => void;
  /** The text of a book of the lists, for a layer on it. */
  readonly textOf: (from: "kept" | "shipped", key: string) => Promise<string | undefined>;
  /** Names that are taken on the shop's host. */
  readonly others: readonly string[];
  readonly onLayer: (text: string, name: string) => void;
}) {
  const [sure, setSure] = useState("");
  return (
    <div className="books-side">
      <div className="side-does">
        <button type="button" className="button main" onClick={props.onSave}>
          Save this book to a file
        </button>
        <button type="button" className="button" onClick={props.onFile}>
          Open a file
        </button>
        <button type="button" className="button" onClick={props.onNew}>
          Begin an empty book
        </button>
      </div>
      <p className="why-side-title">A file can also be dropped anywhere on the page.</p>
      <h3 className="label">Kept in this browser</h3>
      <ul className="pick-list">
        {props.books.map((book) => (
          <li key={book.key} className="book-line">
            <button
              type="button"
              aria-current={book.key === props.current || undefined}
              onClick={() => props.onOpen(book.key)}
            >
              <b>{book.key}</b>
              <span>{book.title}</span>
              <small>changed {when(book.at)}</small>
            </button>
            {book.key !== props.current && (
              <button
                type="button"
                className="button bare"
                onClick={() => {
                  if (sure === book.key) props.onDrop(book.key);
                  else setSure(book.key);
                }}
              >
                {sure === book.key ? "Press again: it cannot be brought back" : "Throw away"}
                <span className="out-of-sight"> the book {book.key}</span>
              </button>
            )}
            <BeginLayer
              on={book.key}
              text={() => props.textOf("kept", book.key)}
              others={props.others}
              onLayer={props.onLayer}
            />
          </li>
        ))}
      </ul>
      <h3 className="label">Comes with the program</h3>
      <ul className="pick-list">
        {props.shipped.map((name) => (
          <li key={name} className="book-line">
            <button type="button" onClick={() => props.onShipped(name)}>
              <b>{name}</b>
              <span>opens as a copy of its own</span>
            </button>
            <BeginLayer
              on={name}
              text={() => props.textOf("shipped", name)}
              others={props.others}
              onLayer={props.onLayer}
            />
          </li>
        ))}
      </ul>
    </div>
  );
}

const when = (at: number): string =>
  new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
