// A sentence of the job card with its numbers marked, so that each can be asked why.
import type { Piece } from "../../../core/view.ts";
import { useWords } from "../words/words.ts";
import "./parts.css";

/** Spans that tolerances leave to values, by name: drawn beside the value. */
export type Spans = Readonly<Record<string, string>>;

export function PiecesText(props: {
  readonly pieces: readonly Piece[];
  readonly onWhy?: (name: string) => void;
  readonly spans?: Spans;
}) {
  return (
    <>
      {props.pieces.map((piece, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place in the sentence
        <OnePiece key={place} piece={piece} onWhy={props.onWhy} spans={props.spans} />
      ))}
    </>
  );
}

function OnePiece({
  piece,
  onWhy,
  spans,
}: {
  readonly piece: Piece;
  readonly onWhy?: (name: string) => void;
  readonly spans?: Spans;
}) {
  const say = useWords();
  if (typeof piece === "string") return piece;
  const { name, state } = piece;
  const text = piece.text === "not known yet" ? say("card.not-known") : piece.text;
  const span = name === undefined ? undefined : spans?.[name];
  const beside = span === undefined ? null : <small className="piece-span">{span}</small>;
  if (name === undefined || onWhy === undefined)
    return (
      <>
        <b className={`piece piece-${state}`}>{text}</b>
        {beside}
      </>
    );
  return (
    <>
      <button
        type="button"
        className={`piece piece-asks piece-${state}`}
        onClick={() => onWhy(name)}
        aria-label={say("card.text-why", { text })}
      >
        {text}
      </button>
      {beside}
    </>
  );
}
