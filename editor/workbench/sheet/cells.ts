// What a cell of the sheet says: one row of the book for one job.
import { isRefused } from "../../../core/job-state.ts";
import type { JobView, Row, Shown } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";

export type Cell =
  | { readonly is: "answer"; readonly text: string; readonly takes?: string; readonly wrong?: string }
  | { readonly is: "value"; readonly shown: Shown }
  | { readonly is: "mark"; readonly as: "on" | "off" | "held" | "stop" | "bad"; readonly text: string }
  | { readonly is: "none" };

export function cellOf(row: Row, job: JobTag, view: JobView | undefined): Cell {
  if (!view) return { is: "none" };
  const at = indexOf(view);
  switch (row.keyword) {
    case "ask": {
      const name = row.name ?? "";
      const wrong = view.findings.find((finding) => finding.ask === name)?.says;
      const shown = at.values.get(name);
      const typed = job.answers[name] ?? "";
      return {
        is: "answer",
        text: typed,
        takes: typed === "unknown" && shown?.state === "known" ? shown.text : undefined,
        wrong,
      };
    }
    case "dial":
    case "figure":
    case "chart":
    case "list": {
      const name = row.name ?? "";
      const shown = at.values.get(name) ?? togetherOf(at.values, name);
      return shown ? { is: "value", shown } : { is: "none" };
    }
    case "step": {
      const line = at.steps.get(row.id);
      if (line) return { is: "mark", as: "on", text: line.takes ? `do, ${line.takes}` : "do" };
      return view.state === "ready"
        ? { is: "mark", as: "off", text: "no" }
        : { is: "mark", as: "held", text: "held" };
    }
    case "caution":
      return at.cautions.has(row.id)
        ? { is: "mark", as: "on", text: "shown" }
        : { is: "mark", as: "off", text: "no" };
    case "stop":
      return at.stops.has(row.id)
        ? { is: "mark", as: "stop", text: "stops" }
        : { is: "mark", as: "off", text: "no" };
    case "promise": {
      if (at.broken.has(row.id)) return { is: "mark", as: "bad", text: "broken" };
      return view.state === "ready" || isRefused(view.state)
        ? { is: "mark", as: "on", text: "holds" }
        : { is: "mark", as: "held", text: "open" };
    }
    case "worked":
      return job.from !== undefined && job.from === row.name
        ? { is: "mark", as: "on", text: "this job" }
        : { is: "none" };
    case "book":
    case "part":
    case "kind":
    case "formula":
    case "picture":
    case "use":
    case "drop":
    case "unreadable":
      return { is: "none" };
  }
}

/** The cell as plain text, for copying and for telling whether it changed. */
export function textOfCell(cell: Cell): string {
  switch (cell.is) {
    case "answer":
      return cell.text;
    case "value":
      return cell.shown.text;
    case "mark":
      return cell.text;
    case "none":
      return "";
  }
}

interface Index {
  readonly values: ReadonlyMap<string, Shown>;
  readonly steps: ReadonlyMap<string, { readonly takes?: string }>;
  readonly cautions: ReadonlySet<string>;
  readonly stops: ReadonlySet<string>;
  readonly broken: ReadonlySet<string>;
}

const indexes = new WeakMap<JobView, Index>();

function indexOf(view: JobView): Index {
  const known = indexes.get(view);
  if (known) return known;
  const index: Index = {
    values: new Map(view.values.map((shown) => [shown.name, shown])),
    steps: new Map(view.steps.map((line) => [line.id, line])),
    cautions: new Set(view.cautions.flatMap((line) => (line.mayApply === undefined ? [line.id] : []))),
    stops: new Set(view.stops.map((line) => line.id)),
    broken: new Set(view.broken.map((line) => line.id)),
  };
  indexes.set(view, index);
  return index;
}

/** A chart that gives several values is shown under its own name with all of them in one cell. */
function togetherOf(values: ReadonlyMap<string, Shown>, name: string): Shown | undefined {
  const parts = [...values.values()].filter((shown) => shown.name.startsWith(`${name}.`));
  const first = parts[0];
  if (!first) return undefined;
  const odd = parts.find((shown) => shown.state !== "known");
  return odd
    ? { ...odd, name }
    : { ...first, name, text: parts.map((shown) => shown.text).join(", "), value: null, unit: null };
}
