// What stays of a snapshot after an edit, as far as it can be said without reading the book: both sides work
// it out, and only what differs from it is sent.
import type { TextSplice } from "./delta.ts";
import { spliceOf } from "./delta.ts";
import type { Before, Snapshot, Wanted } from "./messages.ts";

/**
 * The old snapshot for the new text: places behind the edit move with it. A guess that need not be right,
 * since what is wrong in it is sent; both sides must guess the same.
 */
export function carriedOver(old: Snapshot, { text, accepted, units }: Wanted): Snapshot {
  if (old.text === text) return { ...old, accepted, units };
  const splice = spliceOf(old.text, text);
  const by = splice.inserted.length - splice.removed;
  return {
    ...old,
    text,
    accepted,
    units,
    rows: movedPlaces(old.rows, splice),
    findings: movedPlaces(old.findings, splice),
    under: by === 0 ? old.under : old.under.map((one) => ({ ...one, start: one.start + by })),
    before: beforeEdit(old, accepted),
  };
}

/** At the first edit since the accepted text, the jobs by that text are those that were shown. */
const beforeEdit = (old: Snapshot, accepted: string): Before | undefined =>
  old.before ?? (old.text === accepted ? { rules: {}, added: [], gone: [], jobs: old.jobs } : undefined);

/**
 * The same data with every place in it moved; what holds no place behind the edit is the very same object.
 */
function movedPlaces<T>(value: T, splice: TextSplice): T;
function movedPlaces(value: unknown, splice: TextSplice): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return movedItems(value, splice);
  const entries = Object.entries(value as Readonly<Record<string, unknown>>);
  let moves = false;
  const made = entries.map(([name, old]): [string, unknown] => {
    const now =
      typeof old === "number" && (name === "start" || name === "end")
        ? movedPlace(old, splice)
        : movedPlaces(old, splice);
    moves ||= now !== old;
    return [name, now];
  });
  return moves ? Object.fromEntries(made) : value;
}

function movedItems(list: readonly unknown[], splice: TextSplice): readonly unknown[] {
  // A row's lists of other rows hold no places.
  if (typeof list[0] === "string") return list;
  const made = list.map((one) => movedPlaces(one, splice));
  return made.some((one, i) => one !== list[i]) ? made : list;
}

function movedPlace(place: number, { at, removed, inserted }: TextSplice): number {
  if (place <= at) return place;
  return place >= at + removed ? place + inserted.length - removed : at;
}
