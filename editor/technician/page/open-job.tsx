// The open job: its questions and card, and what is done at the panel.
import { useState } from "react";
import { withAnswer } from "../../card/answers.ts";
import { JobScreen } from "../../card/job-screen.tsx";
import { MeaningContext, meaningsOf } from "../../card/meanings.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { JobView } from "../../../core/view.ts";
import { WorkDrawingContext } from "../../ui/drawings/work-drawing.ts";
import { useWords } from "../../ui/words/words.ts";
import { StepWait } from "../record/step-wait.tsx";
import type { JobQuestions } from "./job-questions.ts";
import { jobQuestions } from "./job-questions.ts";
import { FaultsOfBook, NewEdition, SealedWithFaults, Trouble } from "./notices.tsx";
import { PageHead } from "./page-head.tsx";
import { printOfJob } from "./page-state.ts";
import type { PageProps } from "./page-parts.tsx";
import { JobBar, Timers } from "./page-parts.tsx";

interface OpenJobProps extends PageProps {
  readonly snapshot: Snapshot;
  readonly view: JobView;
}

export function OpenJob(props: OpenJobProps) {
  const { session, page, device, panel, snapshot, view } = props;
  const { open, jobs } = device;
  const say = useWords();
  const signed = open.signed !== undefined;
  const ask = jobQuestions(session.engine, snapshot.text, open, page.units);
  return (
    <main className={signed ? "is-signed" : undefined}>
      <p className="job-page-first">{say("page.first")}</p>
      <Trouble trouble={page.trouble} />
      <NewEdition news={page.news} onRead={() => session.page.set({ news: undefined })} />
      <SealedWithFaults page={page} />
      <FaultsOfBook findings={snapshot.findings} />
      <JobBar {...props} />
      {panel && signed && <panel.SignedHead key={`signed ${open.id}`} record={open} onWork={ask.card} />}
      {panel && !signed && page.other && <panel.OtherBook onAnew={() => session.beginJob(open.answers)} />}
      <WorkDrawingContext.Provider value={ask.drawing}>
        <MeaningContext.Provider value={meaningsOf(snapshot.rows, snapshot.kinds)}>
          <QuestionsAndCard key={open.id} {...props} ask={ask} />
        </MeaningContext.Provider>
      </WorkDrawingContext.Provider>
      {panel && (
        <panel.AtPanel
          key={`panel ${open.id}`}
          record={open}
          jobs={jobs}
          job={view}
          rows={snapshot.rows}
          desk={session.jobs}
          onCard={ask.card}
        />
      )}
      {!signed && <NewJob onNew={() => session.beginJob()} />}
      <Timers {...props} />
    </main>
  );
}

/** A signed job shows its card alone: nothing can be answered, ticked or timed any more. */
function QuestionsAndCard(props: OpenJobProps & { readonly ask: JobQuestions }) {
  const { session, page, device, panel, snapshot, view, ask } = props;
  const { open } = device;
  const signed = open.signed !== undefined;
  return (
    <JobScreen
      title={snapshot.title || snapshot.name}
      edition={snapshot.edition}
      under={snapshot.under.filter((one) => one.as === "amended")}
      asks={snapshot.asks}
      answers={open.answers}
      job={view}
      units={page.units}
      head={<Head {...props} />}
      onAnswer={(name, text) => session.jobs.answer(withAnswer(open.answers, name, text))}
      locked={signed}
      drafts={page.drafts}
      onDrafts={session.setDrafts}
      ticked={open.ticked}
      onTicked={session.jobs.tick}
      jobName={open.title || undefined}
      print={printOfJob(page)}
      besideStep={
        signed
          ? undefined
          : (step, place) => (
              <>
                <StepWait
                  step={step}
                  place={place}
                  timers={open.timers}
                  onStart={(timer, says, ends) => session.jobs.add({ does: "timer", timer, says, ends })}
                />
                {panel && open.ticked[step.id] !== step.text && (
                  <panel.LeaveStep
                    step={step}
                    place={place}
                    left={open.left[step.id]}
                    onLeave={(left) => session.jobs.add({ does: "leave", step: step.id, ...left })}
                  />
                )}
              </>
            )
      }
      onCard={panel && <panel.RecordOnCard record={open} />}
      signed={open.signed}
      proofs={signed ? undefined : snapshot.card}
      onCloseCalls={signed ? undefined : ask.closeCalls}
      onWhy={ask.why}
    />
  );
}

const Head = ({ session, page }: PageProps) => (
  <PageHead
    units={page.units}
    onUnits={session.setUnits}
    onBook={() => session.page.set({ choosing: true })}
  />
);

/** Pressed twice: a slip of the hand must not lead away from a job that is half done. */
function NewJob(props: { readonly onNew: () => void }) {
  const say = useWords();
  const [sure, setSure] = useState(false);
  return (
    <p className="job-page-next no-print">
      <button
        type="button"
        className="button"
        onBlur={() => setSure(false)}
        onClick={() => {
          if (sure) props.onNew();
          setSure(!sure);
        }}
      >
        {say(sure ? "record.begin-sure" : "page.new")}
      </button>
    </p>
  );
}
