// What every screen of the job page has: the line of jobs above it and the timers at its foot.
import { RecordBar } from "../record/record-bar.tsx";
import type { DeviceJobsState } from "../store/device-jobs.ts";
import type { JobSession } from "./job-session.ts";
import type { PageState } from "./page-state.ts";

/** Parts of the page that are fetched after the first question. */
export type Panel = typeof import("../record/panel.tsx");

export interface PageProps {
  readonly session: JobSession;
  readonly page: PageState;
  readonly device: DeviceJobsState;
  /** Undefined until it has been fetched. */
  readonly panel: Panel | undefined;
}

/** The line above a job: its name, the other jobs, what is kept and delivered. */
export function JobBar({ session, device, panel }: PageProps) {
  return (
    <RecordBar
      {...device}
      List={panel?.JobList}
      onName={session.jobs.name}
      onOpen={session.openJob}
      onBegin={() => session.beginJob()}
    />
  );
}

/** All timers of this device, once what draws them has been fetched. */
export function Timers({ session, device, panel }: PageProps) {
  if (panel === undefined) return null;
  return (
    <panel.TimerStrip
      jobs={device.jobs}
      open={device.open.id}
      onPutAway={(timer) => {
        if (!timer.signed) session.jobs.addTo(timer.job, { does: "timer", timer: timer.timer });
      }}
    />
  );
}
