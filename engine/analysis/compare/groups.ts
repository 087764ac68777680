// Changes made one at a time: those that only make sense together (a new kind and the figure that uses it)
// are one group, and the text of a book with some groups made and the others not is put together from the
// statements of both.
import type { RuleChangeView } from "../../../core/view.ts";
import type { Entry } from "../../language/check/book.ts";

export interface Group {
  readonly changes: readonly RuleChangeView[];
}

/**
 * Statements linked by a name that one of them brings, takes away, or gives another type. Changes of words
 * alone can move nothing and stand in no group that is tried.
 */
export function groupsOf(
  changes: readonly RuleChangeView[],
  before: readonly Entry[],
  after: readonly Entry[],
): readonly Group[] {
  const [old, fresh] = [byId(before), byId(after)];
  const leader = changes.map((_, i) => i);
  const find = (i: number): number => {
    while (leader[i] !== i) i = leader[i] = leader[leader[i]!]!;
    return i;
  };
  const place = new Map(changes.map((change, i) => [change.id, i]));
  // By name: which change gives the name another meaning.
  const turns = new Map<string, number>();
  changes.forEach((change, i) => {
    const [a, b] = [old.get(change.id), fresh.get(change.id)];
    const name = (b ?? a)?.statement.name?.text;
    if (name === undefined) return;
    if (
      change.does !== "changed" ||
      a?.checked.signature?.type === undefined ||
      b?.checked.signature === undefined ||
      !sameMeaning(a, b)
    )
      turns.set((b ?? a)!.statement.body.keyword === "kind" ? `kind ${name}` : name, i);
  });
  changes.forEach((change, i) => {
    for (const entry of [old.get(change.id), fresh.get(change.id)])
      for (const name of entry?.statement.uses ?? [])
        for (const key of [name, `kind ${name}`]) {
          const other = turns.get(key);
          if (other !== undefined && other !== i) leader[find(i)] = find(other);
        }
  });
  const groups = new Map<number, RuleChangeView[]>();
  changes.forEach((change, i) => {
    const key = find(i);
    groups.set(key, [...(groups.get(key) ?? []), change]);
  });
  void place;
  return [...groups.values()].map((list) => ({ changes: list }));
}

/**
 * Whether a name can stand for either statement in the rules of others: then each can be changed alone. A
 * dial's value is part of its signature and not of its meaning.
 */
const sameMeaning = (a: Entry, b: Entry): boolean => {
  const [x, y] = [a.checked.signature!, b.checked.signature!];
  if (a.statement.body.keyword === "kind") return false;
  return x.what === y.what && JSON.stringify(x.type) === JSON.stringify(y.type);
};

const byId = (entries: readonly Entry[]): ReadonlyMap<string, Entry> =>
  new Map(entries.map((entry) => [entry.id, entry]));

const textOf = (source: string, entry: Entry): string =>
  source.slice(entry.piece.lead.start, entry.piece.at.end);

/** The first book with these changes made; with all of them, the statements of the second in its order. */
export function withChanges(
  before: { readonly text: string; readonly entries: readonly Entry[] },
  after: { readonly text: string; readonly entries: readonly Entry[] },
  made: readonly RuleChangeView[],
): string {
  const does = new Map(made.map((change) => [change.id, change.does]));
  const fresh = byId(after.entries);
  const out: { readonly id: string; readonly text: string }[] = [];
  for (const entry of before.entries) {
    const done = does.get(entry.id);
    if (done === "dropped" || done === "moved") continue;
    const now = done === "changed" ? fresh.get(entry.id)! : undefined;
    out.push({ id: entry.id, text: now ? textOf(after.text, now) : textOf(before.text, entry) });
  }
  // New and moved statements go behind the nearest one before them that is there.
  after.entries.forEach((entry, i) => {
    const done = does.get(entry.id);
    if (done !== "added" && done !== "moved") return;
    let at = 0;
    for (let j = i - 1; j >= 0 && at === 0; j--)
      at = out.findIndex((one) => one.id === after.entries[j]!.id) + 1;
    const text =
      done === "moved"
        ? textOf(before.text, before.entries.find((one) => one.id === entry.id)!)
        : textOf(after.text, entry);
    out.splice(at, 0, { id: entry.id, text });
  });
  return out.map((one) => one.text.replace(/^\n+/, "")).join("\n\n");
}
