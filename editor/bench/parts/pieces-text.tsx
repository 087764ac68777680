// A sentence of the job card with its numbers marked, so that each can be asked why.
import type { Piece } from "../../../core/view.ts";
import "./parts.css";

export function PiecesText(props: { readonly pieces: readonly Piece[]; readonly onWhy?: (name: string) => void }) {
  return (
    <>
      {props.pieces.map((piece, place) => (
        <OnePiece key={place} piece={piece} onWhy={props.onWhy} />
      ))}
    </>
  );
}

function OnePiece({ piece, onWhy }: { readonly piece: Piece; readonly onWhy?: (name: string) => void }) {
  if (typeof piece === "string") return piece;
  const { name, text, state } = piece;
  if (name === undefined || onWhy === undefined) return <b className={`piece piece-${state}`}>{text}</b>;
  return (
    <button type="button" className={`piece piece-asks piece-${state}`} onClick={() => onWhy(name)} aria-label={`${text}: why?`}>
      {text}
    </button>
  );
}
