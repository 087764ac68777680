// Sentences above a job that are not about its answers: faults of the book, an edition that has just been
// sealed, an engine that had to be started again.
import type { Snapshot } from "../../client/engine/messages.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import type { PageState, SealedNews } from "./page-state.ts";
import { printOfJob } from "./page-state.ts";

export function Trouble({ trouble }: { readonly trouble: PageState["trouble"] }) {
  const say = useWords();
  if (trouble === undefined) return null;
  return (
    <p className="job-page-trouble" role="alert">
      {say(trouble.key, { reason: trouble.reason })}
    </p>
  );
}

/** Told until it is read. */
export function NewEdition(props: { readonly news: SealedNews | undefined; readonly onRead: () => void }) {
  const { news, onRead } = props;
  const say = useWords();
  if (news === undefined) return null;
  return (
    <p className="job-page-news no-print" role="status">
      <span>{newsWords(news, say)}</span>{" "}
      <button type="button" className="button" onClick={onRead}>
        {say("page.sealed-read")}
      </button>
    </p>
  );
}

export function newsWords({ edition, begun, from }: SealedNews, say: Say): string {
  if (!begun) return say("page.sealed-now", { edition });
  return from === undefined ? say("page.sealed", { edition }) : say("page.sealed-from", { edition, from });
}

/** The open job's edition was sealed with faults: how many, and the lead's reason. */
export function SealedWithFaults({ page }: { readonly page: PageState }) {
  const say = useWords();
  const fault = page.sealed.faulty[printOfJob(page)];
  if (fault === undefined) return null;
  return (
    <p className="job-page-trouble">
      {say(fault.faults === 1 ? "page.sealed-faults" : "page.sealed-faults-many", {
        count: fault.faults,
        reason: fault.reason,
      })}
    </p>
  );
}

export function FaultsOfBook({ findings }: Pick<Snapshot, "findings">) {
  const say = useWords();
  const count = findings.filter((finding) => finding.weight === "error").length;
  if (count === 0) return null;
  return (
    <p className="job-page-trouble" role="alert">
      {count === 1 ? say("page.fault") : say("page.faults", { count })}
    </p>
  );
}
