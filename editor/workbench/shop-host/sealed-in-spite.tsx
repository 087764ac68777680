// Above the card of the bench: what the edition on the bench was sealed in spite of, with the lead's reason,
// in the words of the technician's page.
import { useEffect, useState } from "react";
import type { EditionLine } from "../../../core/schemas/host.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { hashText } from "../../client/storage/hash-text.ts";
import { useWords } from "../../ui/words/words.ts";
import "./shop-host.css";

/**
 * Draws nothing where the text is not that of a sealed edition, or of one without faults; a text that was
 * changed since is a draft.
 */
export function SealedInSpite(props: {
  readonly client: HostClient;
  readonly snapshot: Pick<Snapshot, "name" | "edition" | "text">;
  readonly sealings: number;
}) {
  const { client, sealings } = props;
  const { name, edition, text } = props.snapshot;
  const say = useWords();
  const [found, setFound] = useState<{ readonly text: string; readonly line: EditionLine }>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: asks again after each sealing.
  useEffect(() => {
    if (name === "" || edition === undefined) return undefined;
    let over = false;
    void (async () => {
      const [line, print] = await Promise.all([client.edition(name, edition), hashText(text)]);
      if (!over && line.print === print) setFound({ text, line });
      // The host has no such edition, or does not answer: then nothing can be told of it here.
    })().catch(() => undefined);
    return () => {
      over = true;
    };
  }, [client, name, edition, text, sealings]);
  if (found === undefined || found.text !== text || found.line.faults.length === 0) return null;
  const { faults, reason = "" } = found.line;
  return (
    <p className="sealed-in-spite">
      {say(faults.length === 1 ? "page.sealed-faults" : "page.sealed-faults-many", {
        count: faults.length,
        reason,
      })}
    </p>
  );
}
