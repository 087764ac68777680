// Begins a layer on a book: a name and a title, and the head is written.
import { useId, useState } from "react";
import type { FormEvent } from "react";
import { nameTrouble, newLayer } from "../store/new-layer.ts";

/** The name takes the focus: the form opens at a press of its button. */
const focusOnOpen = (field: HTMLInputElement | null): void => field?.focus();

export function BeginLayer(props: {
  /** Name of the book underneath, as it stands in the list. */
  readonly on: string;
  readonly text: () => Promise<string | undefined>;
  /** Names that are taken on the shop's host. */
  readonly others: readonly string[];
  readonly onLayer: (text: string, name: string) => void;
}) {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState("");
  const [title, setTitle] = useState("");
  const [trouble, setTrouble] = useState("");
  const says = useId();
  const begin = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const base = await props.text();
    if (base === undefined) {
      setTrouble("That book could not be fetched.");
      return;
    }
    const wrong = nameTrouble(base, name.trim(), props.others);
    const text = wrong === undefined ? newLayer(base, name.trim(), title) : undefined;
    if (text === undefined)
      setTrouble(wrong ?? "The book has no head that a layer could name: begin it with book and a name.");
    else props.onLayer(text, name.trim());
  };
  if (!open)
    return (
      <button type="button" className="button bare" onClick={() => setOpen(true)}>
        Begin a layer on it<span className="out-of-sight">: {props.on}</span>
      </button>
    );
  return (
    <form
      className="begin-layer"
      aria-label={`A layer on ${props.on}`}
      onSubmit={(event) => void begin(event)}
    >
      <p className="why-side-title">
        The layer says only what a yard decides otherwise. {props.on} is not touched. To decide something
        otherwise, choose one of its grey lines in the sheet and press Amend here.
      </p>
      <label>
        <span className="label">Name</span>
        <input
          className="field"
          value={name}
          ref={focusOnOpen}
          spellCheck={false}
          autoComplete="off"
          placeholder="north-yard"
          aria-invalid={trouble !== ""}
          aria-describedby={says}
          onChange={(event) => {
            setName(event.target.value);
            setTrouble("");
          }}
        />
      </label>
      <label>
        <span className="label">Title</span>
        <input
          className="field"
          value={title}
          autoComplete="off"
          placeholder="Panels in the north yard"
          onChange={(event) => setTitle(event.target.value)}
        />
      </label>
      <p id={says} role="alert">
        {trouble}
      </p>
      <p className="side-does">
        <button type="submit" className="button main">
          Begin the layer
        </button>
        <button type="button" className="button" onClick={() => setOpen(false)}>
          Cancel
        </button>
      </p>
    </form>
  );
}
