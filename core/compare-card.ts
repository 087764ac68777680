// A signed card against the same answers worked again: the same, or exactly what differs. Both are taken in
// the book's own units, so that a screen's choice of units is no difference.
import type { CardRecord } from "./record.ts";
import type { JobView } from "./view.ts";

/** The card of a job shown in the book's units, as it is kept when it is signed. */
export function cardOf(job: JobView, engine: string): CardRecord {
  const mayApply = job.cautions.filter((line) => line.mayApply !== undefined).map((line) => line.text);
  return {
    state: job.state,
    engine,
    values: job.values.filter((value) => value.state === "known").map(({ name, text }) => ({ name, text })),
    stops: job.stops.map((line) => line.text),
    cautions: job.cautions.filter((line) => line.mayApply === undefined).map((line) => line.text),
    ...(mayApply.length > 0 ? { mayApply } : {}),
    steps: job.steps.map((line) => line.text),
  };
}

/** One that applies and one that may apply are the same words to whoever read the card. */
const allCautions = ({ cautions, mayApply = [] }: CardRecord): readonly string[] => [
  ...cautions,
  ...mayApply,
];

/** One thing that comes out otherwise; `then` or `now` is absent where there was, or is, none. */
export interface CardDifference {
  readonly of: "state" | "value" | "stop" | "caution" | "step";
  /** The value's name; "" for the others. */
  readonly name: string;
  readonly then?: string;
  readonly now?: string;
}

/**
 * Every difference, in the order of the card; empty when both say the same. The engine's version is not
 * compared: it is listed apart.
 */
export function cardDifferences(then: CardRecord, now: CardRecord): readonly CardDifference[] {
  const found: CardDifference[] = [];
  if (then.state !== now.state) found.push({ of: "state", name: "", then: then.state, now: now.state });
  const values = new Map(now.values.map((value) => [value.name, value.text]));
  for (const { name, text } of then.values) {
    const is = values.get(name);
    if (is !== text) found.push({ of: "value", name, then: text, ...(is === undefined ? {} : { now: is }) });
    values.delete(name);
  }
  for (const [name, text] of values) found.push({ of: "value", name, now: text });
  found.push(
    ...lines("stop", then.stops, now.stops),
    ...lines("caution", allCautions(then), allCautions(now)),
    ...lines("step", then.steps, now.steps),
  );
  return found;
}

/**
 * Lines that only one of the two has, each as often as it has it more; a change of order alone is reported as
 * the place that moved.
 */
function lines(
  of: "stop" | "caution" | "step",
  then: readonly string[],
  now: readonly string[],
): readonly CardDifference[] {
  const left = [...now];
  const gone = then.filter((text) => {
    const at = left.indexOf(text);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  const found: CardDifference[] = [
    ...gone.map((text) => ({ of, name: "", then: text })),
    ...left.map((text) => ({ of, name: "", now: text })),
  ];
  if (found.length > 0) return found;
  return then.flatMap((text, place) =>
    now[place] === text ? [] : [{ of, name: String(place + 1), then: text, now: now[place] ?? "" }],
  );
}
