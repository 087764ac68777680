// The job page: one of four screens, with the line of jobs above it and the timers at its foot.
import { useEffect, useState, useSyncExternalStore } from "react";
import { useLoaded } from "../../ui/parts/lazy-load.ts";
import { fetchLateWords, useWords } from "../../ui/words/words.ts";
import { ChooseBook } from "./choose-book.tsx";
import type { JobSession } from "./job-session.ts";
import { Trouble } from "./notices.tsx";
import { OpenJob } from "./open-job.tsx";
import { PageHead } from "./page-head.tsx";
import type { PageProps, Panel } from "./page-parts.tsx";
import { JobBar, Timers } from "./page-parts.tsx";
import type { PageState } from "./page-state.ts";
import { isWithoutBook, screenOf, viewOfJob } from "./page-state.ts";

const loadPanel = async (): Promise<Panel> =>
  (await Promise.all([import("../record/panel.tsx"), fetchLateWords()]))[0];

export function PageView({ session }: { readonly session: JobSession }) {
  const page = useSyncExternalStore(session.page.subscribe, session.page.get);
  const device = useSyncExternalStore(session.jobs.subscribe, session.jobs.state);
  const slow = useIsSlow();
  useReadyAnswers(session, page.snapshot !== undefined);
  const hasView = viewOfJob(page, device.open.id) !== undefined;
  const panel = useLoaded(loadPanel, hasView || isWithoutBook(page));
  const screen = screenOf(page, device.open.id);
  const shown: PageProps = { session, page, device, panel };
  switch (screen.is) {
    case "choosing":
      return <BookChoice {...shown} />;
    case "without-book":
      return <WithoutBook {...shown} />;
    case "reading":
      return <Reading trouble={page.trouble} slow={slow} />;
    case "job":
      return <OpenJob {...shown} snapshot={screen.snapshot} view={screen.view} />;
  }
}

/** True after the first second. */
function useIsSlow(): boolean {
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    const clock = setTimeout(() => setSlow(true), 1000);
    return () => clearTimeout(clock);
  }, []);
  return slow;
}

/**
 * Reasons are asked for at the panel, where there may be no network: the code that gives them is fetched
 * right after the first question.
 */
function useReadyAnswers({ engine }: JobSession, due: boolean): void {
  useEffect(() => {
    if (due) void engine.ask((to) => to.getReady());
  }, [engine, due]);
}

function BookChoice({ session, page }: PageProps) {
  return (
    <main className="job-page-books">
      <PageHead />
      <Trouble trouble={page.trouble} />
      <ChooseBook
        key={page.sealed.books.map((book) => book.print).join()}
        books={session.books}
        now={page.key || undefined}
        onChoose={(book) => void session.takeBook(book)}
        onBack={page.key === "" ? undefined : () => session.page.set({ choosing: false })}
      />
    </main>
  );
}

function WithoutBook(props: PageProps) {
  const { session, device, panel } = props;
  return (
    <main>
      <JobBar {...props} />
      {panel && <panel.WithoutBook record={device.open} shelf={session.jobs.shelf} />}
      <Timers {...props} />
    </main>
  );
}

function Reading({ trouble, slow }: { readonly trouble: PageState["trouble"]; readonly slow: boolean }) {
  const say = useWords();
  return (
    <p className="job-page-wait" role="status">
      {trouble
        ? say(trouble.key, { reason: trouble.reason })
        : say(slow ? "page.still-reading" : "page.reading")}
    </p>
  );
}
