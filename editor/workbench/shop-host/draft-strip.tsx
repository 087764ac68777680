// A line under the title block for what concerns the open draft: who else has it open, another draft of its
// name, a statement that both changed.
import { capitalise } from "../../../core/capitalise.ts";
import type { DraftState } from "../store/draft-keeper.ts";
import { when } from "./edition-words.ts";
import "./shop-host.css";

export function DraftStrip(props: {
  readonly draft: DraftState;
  /** The name of whoever sits here. */
  readonly you: string;
  readonly onClash: () => void;
  readonly onGoOn: (whose: "theirs" | "mine") => void;
  readonly onAgain: () => void;
}) {
  const { draft } = props;
  const { theirs } = draft;
  return (
    <>
      {draft.others.length > 0 && (
        <p className="strip is-plain" role="status">
          {othersWords(draft, props.you)}
        </p>
      )}
      {draft.is === "apart" && theirs && (
        <div className="strip" role="alert">
          <span>
            The host has another draft of {draft.book}: version {theirs.version}, saved by {theirs.who},{" "}
            {when(theirs.at)}. This text was not made from it and is kept in this browser alone.
          </span>
          <button type="button" className="button main" onClick={() => props.onGoOn("theirs")}>
            Go on with the host’s draft
          </button>
          <button type="button" className="button" onClick={() => props.onGoOn("mine")}>
            Save this text as version {theirs.version + 1}
          </button>
        </div>
      )}
      {draft.is === "clash" && theirs && (
        <div className="strip" role="alert">
          <span>
            {capitalise(theirs.who)} saved version {theirs.version} in between, and both of you changed a
            statement. Nothing is lost: choose what stands.
          </span>
          <button type="button" className="button main" onClick={props.onClash}>
            Look at both
          </button>
        </div>
      )}
      {draft.is === "refused" && (
        <div className="strip" role="alert">
          <span>The host does not take this draft: {draft.refusal} It is kept in this browser.</span>
          <button type="button" className="button" onClick={props.onAgain}>
            Try again
          </button>
        </div>
      )}
    </>
  );
}

function othersWords({ others, book }: Pick<DraftState, "others" | "book">, you: string): string {
  const names = [...new Set(others.map((one) => one.who))];
  const own = others.filter((one) => one.who === you).length;
  const said = names.map((name) =>
    name === you ? (own === 1 ? `another window of ${name}` : `${own} other windows of ${name}`) : name,
  );
  const last = said.at(-1) ?? "";
  return capitalise(
    `${said.length > 1 ? `${said.slice(0, -1).join(", ")} and ${last}` : last} ` +
      `${others.length > 1 ? "have" : "has"} the draft of ${book} open too. What ` +
      "either of you types is saved for both.",
  );
}
