// What used books bring beside what is there: the same statement by two ways is brought once, and a name that
// is taken is a finding of the line that brings it.
import { type Item, keyOf, placeOf } from "./item.ts";

export function bringIn(items: readonly Item[]): readonly Item[] {
  if (!items.some((item) => item.from.brought !== undefined)) return items;
  const known = new Map<string, Item>();
  for (const item of items) {
    const key =
      item.from.brought === undefined && item.statement.body.keyword !== "use"
        ? keyOf(item.statement)
        : undefined;
    if (key !== undefined && !known.has(key)) known.set(key, item);
  }
  const clashes = new Map<number, { readonly one: Item; readonly other: Item }[]>();
  const kept = items.filter((item) => {
    if (item.from.brought === undefined) return true;
    const key = keyOf(item.statement);
    if (key === undefined) return true;
    const other = known.get(key);
    if (other === undefined) {
      known.set(key, item);
      return true;
    }
    if (other.statement === item.statement && other.from.layer === item.from.layer) return false;
    clashes.set(item.from.brought, [...(clashes.get(item.from.brought) ?? []), { one: item, other }]);
    return false;
  });
  return kept.map((item) => {
    const found =
      item.statement.body.keyword === "use" && item.from.own ? clashes.get(item.piece.at.start) : undefined;
    if (found === undefined) return item;
    const faults = found.slice(0, 12).map(({ one, other }) => ({
      code: "use/clash",
      at: item.statement.name?.at ?? { start: 0, end: 3 },
      facts: {
        name: one.statement.name!.text,
        layer: one.from.layer,
        also: [
          { absolute: placeOf(one), says: `stands here in ${one.from.layer}` },
          { absolute: placeOf(other), says: other.from.own ? "and here" : `and here in ${other.from.layer}` },
        ],
      },
    }));
    return { ...item, faults: [...item.faults, ...faults] };
  });
}
