// Every version of the draft that was ever saved: looked at, held against the text on the bench, or taken
// back as a new version.
import { useEffect, useState } from "react";
import type { DraftHistory } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { when } from "./edition-words.ts";

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function HistoryPanel(props: {
  readonly client: HostClient;
  readonly book: string;
  /** The newest version; the list is loaded anew when it rises. */
  readonly version: number;
  readonly readOnly: boolean;
  readonly onHold: (version: number) => void;
  readonly onTakeBack: (version: number, text: string) => void;
}) {
  const { client, book, version } = props;
  const [list, setList] = useState<DraftHistory>();
  const [shown, setShown] = useState<{ readonly version: number; readonly text: string }>();
  const [trouble, setTrouble] = useState("");
  const fail = (): void => setTrouble("The host does not answer.");
  // biome-ignore lint/correctness/useExhaustiveDependencies: loads again when a version is saved.
  useEffect(() => {
    let over = false;
    client.draftHistory(book, { limit: 50 }).then(
      (found) => {
        if (!over) {
          setList(found);
          setTrouble("");
        }
      },
      () => {
        if (!over) fail();
      },
    );
    return () => {
      over = true;
    };
  }, [client, book, version]);
  const more = (): void => {
    const before = list?.versions.at(-1)?.version;
    if (before !== undefined)
      client
        .draftHistory(book, { limit: 50, before })
        .then(
          (next) => setList({ versions: [...(list?.versions ?? []), ...next.versions], more: next.more }),
          fail,
        );
  };
  const withText = (of: number, act: (text: string) => void): void => {
    client.draftVersion(book, of).then(act, fail);
  };
  return (
    <div className="history-side">
      <p className="why-side-title">
        Each save of the draft of {book} is a version of its own. None is ever taken away; an older one comes
        back as a new one.
      </p>
      {trouble !== "" && <p role="alert">{trouble}</p>}
      {list === undefined ? (
        <p role="status">Asking the host…</p>
      ) : (
        <ol className="history-list">
          {list.versions.map((one) => (
            <li key={one.version}>
              <p>
                <b>Version {one.version}</b> {one.who}, {when(one.at)};{" "}
                <span className="record-note">
                  {one.added} written, {one.removed} taken out
                </span>
              </p>
              <p className="sealed-does">
                <button
                  type="button"
                  className="button bare"
                  aria-expanded={shown?.version === one.version}
                  onClick={() => {
                    if (shown?.version === one.version) setShown(undefined);
                    else withText(one.version, (text) => setShown({ version: one.version, text }));
                  }}
                >
                  Look at it<span className="out-of-sight">: version {one.version}</span>
                </button>
                {one.version !== version && (
                  <button type="button" className="button bare" onClick={() => props.onHold(one.version)}>
                    Hold the text against it<span className="out-of-sight">: version {one.version}</span>
                  </button>
                )}
                {one.version !== version && !props.readOnly && (
                  <button
                    type="button"
                    className="button bare"
                    onClick={() => withText(one.version, (text) => props.onTakeBack(one.version, text))}
                  >
                    Take it back<span className="out-of-sight">: version {one.version}</span>
                  </button>
                )}
              </p>
              {shown?.version === one.version && (
                <pre
                  className="rule clash-text"
                  tabIndex={0}
                  role="region"
                  aria-label={`Text of version ${one.version}`}
                >
                  {shown.text}
                </pre>
              )}
            </li>
          ))}
        </ol>
      )}
      {list?.more && (
        <button type="button" className="button" onClick={more}>
          Older versions
        </button>
      )}
    </div>
  );
}
