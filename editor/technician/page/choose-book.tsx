// Which book a job goes by: a plain list, large enough for a glove. Shown first where there is more than one,
// and whenever asked for.
import { useEffect, useRef, useState } from "react";
import type { JobBook } from "../store/job-books.ts";
import { useWords } from "../../ui/words/words.ts";

export function ChooseBook(props: {
  /** The same function at each drawing. */
  readonly books: () => Promise<readonly JobBook[]>;
  /** Key of the book in use; absent before the first choice. */
  readonly now?: string;
  readonly onChoose: (book: JobBook) => void;
  readonly onBack?: () => void;
}) {
  const { now, onBack, books: list } = props;
  const say = useWords();
  const [books, setBooks] = useState<readonly JobBook[]>();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    void list().then(setBooks);
  }, [list]);
  // Asked for from a job, the list takes the reader along.
  const asked = onBack !== undefined;
  useEffect(() => {
    if (asked) heading.current?.focus();
  }, [asked]);
  return (
    <section className="choose-book" aria-labelledby="choose-book">
      <h1 className="question-text" id="choose-book" tabIndex={-1} ref={heading}>
        {say("book.heading")}
      </h1>
      {books === undefined ? (
        <p role="status">{say("book.looking")}</p>
      ) : (
        <ul className="choices" aria-label={say("book.all")}>
          {books.map((book) => (
            <li key={book.key}>
              <button
                type="button"
                className="choice"
                aria-pressed={book.key === now}
                onClick={() => props.onChoose(book)}
              >
                <span className="choice-means">{book.title}</span>
                <span className="choice-word">
                  {[
                    book.key,
                    book.edition === undefined ? "" : say("book.edition", { edition: book.edition }),
                    say(book.key === now ? "book.now" : fromWord[book.from]),
                  ]
                    .filter((part) => part !== "")
                    .join(" · ")}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {onBack && (
        <p className="question-reach">
          <button type="button" className="tap is-soft" onClick={onBack}>
            {say("book.back")}
          </button>
        </p>
      )}
    </section>
  );
}

const fromWord = { sealed: "book.sealed", kept: "book.yours", shipped: "book.shipped" } as const;
