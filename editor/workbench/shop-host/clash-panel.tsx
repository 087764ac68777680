// Statements that two people changed since the same version, each with both wordings side by side; a person
// chooses for each what stands.
import { capitalise } from "../../../core/capitalise.ts";
import { useMemo, useState } from "react";
import type { Choice } from "../../../core/merge.ts";
import { mergeTexts } from "../../../core/merge.ts";
import type { DraftState } from "../store/draft-keeper.ts";

const choices: readonly { readonly choice: Choice; readonly says: (who: string) => string }[] = [
  { choice: "theirs", says: (who) => `As ${who} has it` },
  { choice: "mine", says: () => "As it stands here" },
  { choice: "both", says: () => "Keep both, one after the other" },
];

export function ClashPanel(props: {
  readonly draft: DraftState;
  readonly text: string;
  readonly onSettle: (text: string) => void;
}) {
  const { draft, text } = props;
  const { theirs, base } = draft;
  const [chosen, setChosen] = useState<Readonly<Record<string, Choice>>>({});
  const clashes = useMemo(
    () => (theirs === undefined ? [] : mergeTexts(base, text, theirs.text).clashes),
    [base, text, theirs],
  );
  if (draft.is !== "clash" || theirs === undefined)
    return <p>Nothing is open any more: both changes stand on the bench.</p>;
  const keyOf = (n: number): string => `${clashes[n]?.base}\n${clashes[n]?.mine}\n${clashes[n]?.theirs}`;
  const all = clashes.every((_, n) => chosen[keyOf(n)] !== undefined);
  const take = (): void =>
    props.onSettle(mergeTexts(base, text, theirs.text, (n) => chosen[keyOf(n)] ?? "both").text);
  return (
    <div className="clash-side">
      <p>
        {capitalise(theirs.who)} saved version {theirs.version} while this text was being changed. What only
        one of you changed goes together by itself.{" "}
        {clashes.length === 1 ? "This statement was" : `These ${clashes.length} statements were`} changed by
        both.
      </p>
      <ol className="clashes">
        {clashes.map((clash, n) => (
          <li key={keyOf(n)}>
            <fieldset>
              <legend>
                <b>{headOf(clash.theirs) ?? headOf(clash.mine)}</b>
              </legend>
              <div className="clash-two">
                <figure>
                  <figcaption className="label">{theirs.who}</figcaption>
                  <Wording text={clash.theirs} />
                </figure>
                <figure>
                  <figcaption className="label">Here</figcaption>
                  <Wording text={clash.mine} />
                </figure>
              </div>
              <p className="clash-choices">
                {choices.map(({ choice, says }) => (
                  <label key={choice}>
                    <input
                      type="radio"
                      name={`clash ${n}`}
                      checked={chosen[keyOf(n)] === choice}
                      onChange={() => setChosen({ ...chosen, [keyOf(n)]: choice })}
                    />{" "}
                    {says(theirs.who)}
                  </label>
                ))}
              </p>
            </fieldset>
          </li>
        ))}
      </ol>
      <p className="side-does">
        <button type="button" className="button main" disabled={!all} onClick={take}>
          Let this stand
        </button>
        {!all && <span className="record-note">Choose for each statement first.</span>}
      </p>
      <p className="record-note">
        Both wordings stay in the draft’s history, and Undo brings back what stood here.
      </p>
    </div>
  );
}

const Wording = ({ text }: { readonly text: string }) =>
  text.trim() === "" ? (
    <p className="record-note">taken out</p>
  ) : (
    <pre className="rule clash-text" tabIndex={0}>
      {text.trim()}
    </pre>
  );
/** "figure bevel-width" */
const headOf = (text: string): string | undefined => /^[a-z]+(?:[ \t]+[a-z][a-z0-9-]*)?/m.exec(text)?.[0];
