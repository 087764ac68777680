// The technician's page: the questions of a job and its card, without the editor's weight. Answers are kept as they are given.
import { useEffect, useState, useSyncExternalStore } from "react";
import { createRoot } from "react-dom/client";
import type { Answers } from "../../core/view.ts";
import { startEngine } from "./engine/client.ts";
import { jobWorker } from "./engine/job-engine-worker.ts";
import type { EngineClient } from "./engine/client.ts";
import type { JobCalls, Snapshot } from "./engine/shapes.ts";
import { JobScreen } from "./job/job-screen.tsx";
import type { Keep, KeptJob } from "./store/keep.ts";
import { openKeep } from "./store/keep.ts";
import { shippedBook, shippedBooks } from "./store/shipped.ts";
import "./look/look.css";
import "./job-page.css";

interface Page extends KeptJob {
  readonly key: string;
  readonly text: string;
  readonly snapshot?: Snapshot;
  readonly trouble?: string;
}

const id = "job";
let page: Page = { key: "", text: "", answers: {}, units: "book" };
const listeners = new Set<() => void>();
const set = (part: Partial<Page>): void => { page = { ...page, ...part }; for (const listener of listeners) listener(); };
const subscribe = (listener: () => void): (() => void) => { listeners.add(listener); return () => listeners.delete(listener); };

const keep: Keep | undefined = await openKeep().catch(() => undefined);
const engine: EngineClient<JobCalls> = startEngine<JobCalls>(jobWorker, { snapshot: (snapshot) => set({ snapshot }), busy: () => undefined, trouble: (trouble) => set({ trouble }) });

const work = (): void => engine.show({ text: page.text, accepted: page.text, jobs: [{ id, answers: page.answers }], units: page.units, card: id });
/** Takes a part of the job over and keeps the whole of it at once. */
const give = (part: Partial<KeptJob>): void => {
  const worked = part.answers !== undefined || part.units !== undefined;
  set(part);
  if (worked) work();
  const { answers, units, drafts, ticked } = page;
  keep?.putJob(page.key, { answers, units, drafts, ticked }).catch(() => set({ trouble: "The browser could not keep the answers. Do not close the page before the card is printed." }));
};

function JobPage() {
  const { snapshot, answers, units, drafts = none, ticked = none, trouble } = useSyncExternalStore(subscribe, () => page);
  const [slow, setSlow] = useState(false);
  useEffect(() => { const clock = setTimeout(() => setSlow(true), 1000); return () => clearTimeout(clock); }, []);
  const view = snapshot?.jobs[id];
  if (!snapshot || !view) return <p className="job-page-wait" role="status">{slow ? "Still reading the book…" : "Reading the book…"}</p>;
  const faults = snapshot.findings.filter((finding) => finding.weight === "error").length;
  return (
    <main>
      <p className="job-page-first">Follow the material’s own label, local codes and licensed practice. Where this card differs, they come first.</p>
      {trouble && <p className="job-page-trouble" role="alert">{trouble}</p>}
      {faults > 0 && <p className="job-page-trouble" role="alert">This book has {faults === 1 ? "a fault" : `${faults} faults`}. What rests on it is not worked. Tell the lead.</p>}
      <JobScreen
        title={snapshot.title || snapshot.name} edition={snapshot.edition} asks={snapshot.asks} answers={answers} job={view} units={units} onUnits={(to) => give({ units: to })}
        onAnswer={(name, text) => give({ answers: withAnswer(answers, name, text) })}
        drafts={drafts} onDrafts={(to) => give({ drafts: to })} ticked={ticked} onTicked={(to) => give({ ticked: to })}
        proofs={snapshot.card} onCloseCalls={() => engine.ask((to) => to.closeCalls(page.text, { id, answers: page.answers }))}
        onWhy={(name, depth) => engine.ask((to) => to.why(page.text, { id, answers: page.answers }, name, depth ?? "deciding", page.units))}
      />
      <NewJob onNew={() => give({ answers: {}, drafts: {}, ticked: {} })} />
    </main>
  );
}

/** Pressed twice: a slip of the hand must not clear a job that is half done. */
function NewJob(props: { readonly onNew: () => void }) {
  const [sure, setSure] = useState(false);
  return (
    <p className="job-page-next no-print">
      <button type="button" className="button" onBlur={() => setSure(false)} onClick={() => { if (sure) props.onNew(); setSure(!sure); }}>
        {sure ? "Press again: all answers are cleared" : "Begin a new job"}
      </button>
    </p>
  );
}

const none = {};

function withAnswer(answers: Answers, name: string, text: string | undefined): Answers {
  const rest = Object.fromEntries(Object.entries(answers).filter(([one]) => one !== name));
  return text === undefined || text === "" ? rest : { ...rest, [name]: text };
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<JobPage />);

// The accepted text of the book last open at the bench: a rule still being written never reaches the panel.
const last = await keep?.lastKey();
const kept = last === undefined ? undefined : await keep?.book(last);
const shipped = shippedBooks[0];
const text = kept?.accepted ?? (shipped === undefined ? undefined : await shippedBook(shipped));
if (text === undefined) set({ trouble: "There is no book to work by. Open one at the bench first." });
else {
  const key = kept?.key ?? shipped ?? "";
  set({ key, text, ...(await keep?.job(key)) });
  work();
}
