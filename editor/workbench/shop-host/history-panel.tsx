// Every version of the draft that was ever saved: looked at, held against the text on the bench, or taken
// back as a new version.
import { useEffect, useState } from "react";
import type { DraftHistory } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { when } from "./edition-words.ts";

interface HistoryPanelProps {
  readonly client: HostClient;
  readonly book: string;
  /** The newest version; the list is loaded again when it rises. */
  readonly version: number;
  readonly readOnly: boolean;
  readonly onHold: (version: number) => void;
  readonly onTakeBack: (version: number, text: string) => void;
}

/** The versions as far as they are loaded, and the text of the one that is looked at. */
function useDraftHistory({ client, book, version }: HistoryPanelProps) {
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
  const look = (of: number): void => {
    if (shown?.version === of) setShown(undefined);
    else withText(of, (text) => setShown({ version: of, text }));
  };
  return { list, shown, trouble, more, withText, look };
}

export function HistoryPanel(props: HistoryPanelProps) {
  const { book, version } = props;
  const { list, shown, trouble, more, withText, look } = useDraftHistory(props);
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
            <VersionItem
              key={one.version}
              version={one}
              text={shown?.version === one.version ? shown.text : undefined}
              onLook={() => look(one.version)}
              onHold={one.version === version ? undefined : () => props.onHold(one.version)}
              onTakeBack={
                one.version === version || props.readOnly
                  ? undefined
                  : () => withText(one.version, (text) => props.onTakeBack(one.version, text))
              }
            />
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

function VersionItem(props: {
  readonly version: DraftHistory["versions"][number];
  /** Its text, where it is looked at. */
  readonly text: string | undefined;
  readonly onLook: () => void;
  /** Absent for the newest version: the text on the bench is made from that one. */
  readonly onHold: (() => void) | undefined;
  readonly onTakeBack: (() => void) | undefined;
}) {
  const { version: one, text, onHold, onTakeBack } = props;
  const which = <span className="out-of-sight">: version {one.version}</span>;
  return (
    <li>
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
          aria-expanded={text !== undefined}
          onClick={props.onLook}
        >
          Look at it{which}
        </button>
        {onHold && (
          <button type="button" className="button bare" onClick={onHold}>
            Hold the text against it{which}
          </button>
        )}
        {onTakeBack && (
          <button type="button" className="button bare" onClick={onTakeBack}>
            Take it back{which}
          </button>
        )}
      </p>
      {text !== undefined && (
        <pre
          className="rule clash-text"
          tabIndex={0}
          role="region"
          aria-label={`Text of version ${one.version}`}
        >
          {text}
        </pre>
      )}
    </li>
  );
}
