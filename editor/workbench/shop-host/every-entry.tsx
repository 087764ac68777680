// Every entry of a job in the host's own order, with who delivered it and when, read page by page when it is
// asked for.
import { useState } from "react";
import type { EntryList } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { when } from "./edition-words.ts";
import { entryWords, receivedWords } from "./job-words.ts";

const atOnce = 100;

export function EveryEntry({ client, id }: { readonly client: HostClient; readonly id: string }) {
  const [list, setList] = useState<EntryList>();
  const [trouble, setTrouble] = useState(false);
  const more = (): void => {
    const skip = list?.entries.length ?? 0;
    client.entries(id, { skip, limit: atOnce }).then(
      (next) => {
        setList((now) => ({
          entries: [...(now?.entries ?? []).slice(0, skip), ...next.entries],
          more: next.more,
        }));
        setTrouble(false);
      },
      () => setTrouble(true),
    );
  };
  return (
    <details
      className="job-part"
      onToggle={(event) => {
        if (event.currentTarget.open && list === undefined) more();
      }}
    >
      <summary>Every entry, as the host received it</summary>
      {trouble && <p role="alert">The host does not answer.</p>}
      <ol>
        {list?.entries.map((entry) => (
          <li key={entry.id}>
            {entryWords(entry)}{" "}
            <span className="record-note">
              {entry.by !== undefined && `${entry.by}, `}by the device {when(entry.at)}
              {entry.received && `; ${receivedWords(entry.received, entry.by)}`}
            </span>
          </li>
        ))}
      </ol>
      {list?.more && (
        <button type="button" className="button" onClick={more}>
          More entries
        </button>
      )}
    </details>
  );
}
