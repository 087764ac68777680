// The jobs laid alongside, as tags hung from a rail across the top: name, state, and what holds each up.
import type { JobView } from "../../../core/view.ts";
import { StateMark } from "../../ui/parts/state-mark.tsx";
import type { JobTag } from "../../client/storage/stored-work.ts";

export function JobTagHead(props: {
  readonly job: JobTag;
  readonly view: JobView | undefined;
  readonly chosen: boolean;
  readonly onOpen: () => void;
}) {
  const { job, view } = props;
  return (
    <button
      type="button"
      className={`hung-tag${props.chosen ? " is-chosen" : ""} ${view ? `state-${view.state}` : ""}`}
      onClick={props.onOpen}
    >
      <span className="hung-thread" aria-hidden="true" />
      <span className="hung-body">
        <span className="hung-hole" aria-hidden="true" />
        <span className="hung-name">
          <span className="out-of-sight">Job </span>
          {job.name}
        </span>
        {view && <StateMark state={view.state} />}
        <span className="hung-why">{view ? standing(view) : ""}</span>
      </span>
    </button>
  );
}

/** What holds the job up, in a few words; "" when nothing does. */
function standing(view: JobView): string {
  switch (view.state) {
    case "ready":
      return view.broken.length > 0
        ? `breaks ${view.broken.length} ${view.broken.length === 1 ? "promise" : "promises"}`
        : "";
    case "waiting":
      return view.waiting.length === 0
        ? ""
        : view.waiting.length === 1
          ? `for ${view.waiting[0]}`
          : `for ${view.waiting[0]} +${view.waiting.length - 1}`;
    case "stopped":
    case "referred":
      return view.stops[0]?.name ?? view.stops[0]?.text ?? "";
    case "impossible":
      return view.values.find((shown) => shown.state === "impossible")?.name ?? "";
  }
}
