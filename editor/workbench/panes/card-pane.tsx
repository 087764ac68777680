// The card of the chosen job, as the technician reads it.
import { lazy } from "react";
import { WorkDrawingContext } from "../../ui/drawings/work-drawing.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Workbench } from "../controller/use-workbench.ts";
import { SealedInSpite } from "../shop-host/sealed-in-spite.tsx";
import { CardJobs } from "./card-jobs.tsx";

const JobScreen = lazy(() =>
  import("../../card/job-screen.tsx").then((module) => ({ default: module.JobScreen })),
);

interface CardProps {
  readonly bench: Workbench;
  readonly snapshot: Snapshot;
}

export function CardPane({ bench, snapshot }: CardProps) {
  const { job } = bench.chosen;
  if (!job || !snapshot.jobs[job.id])
    return (
      <p className="waiting-note">
        No job is laid alongside yet.{" "}
        <button type="button" className="button" onClick={() => bench.panel.show({ is: "add-job" })}>
          Lay one alongside
        </button>
      </p>
    );
  const { host, shop, chosen, state } = bench;
  return (
    <section className="floor-card" aria-label="Card">
      <CardJobs jobs={state.desk.jobs} current={job.id} onPick={chosen.setJob} />
      {host.host === "there" && (
        <SealedInSpite client={shop.client} snapshot={snapshot} sealings={host.sealings} />
      )}
      <Card bench={bench} snapshot={snapshot} job={job} />
    </section>
  );
}

function Card({ bench, snapshot, job }: CardProps & { readonly job: JobTag }) {
  const { store, state } = bench;
  const { text } = state.desk;
  const { units } = state;
  const asked = { id: job.id, answers: job.answers };
  return (
    <WorkDrawingContext.Provider
      value={(picture) => store.ask((engine) => engine.drawing(text, asked, picture, units))}
    >
      <JobScreen
        key={job.id}
        title={snapshot.title || snapshot.name}
        edition={snapshot.edition}
        under={snapshot.under.filter((one) => one.as === "amended")}
        asks={snapshot.asks}
        answers={job.answers}
        job={snapshot.jobs[job.id]!}
        units={units}
        onAnswer={(name, given) => store.setAnswers([{ job: job.id, ask: name, text: given ?? "" }])}
        onWhy={(name, deep) => store.ask((engine) => engine.why(text, job, name, deep ?? "deciding", units))}
        invented={job.from !== undefined}
        proofs={snapshot.card?.job === job.id ? snapshot.card : undefined}
        onCloseCalls={bench.closeCalls}
        ticked={job.ticked ?? nothingTicked}
        onTicked={(ticked) => bench.jobs.tick(job.id, ticked)}
      />
    </WorkDrawingContext.Provider>
  );
}

const nothingTicked = {};
