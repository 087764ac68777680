// Keys for lists whose items have no id of their own: two lines of one report can read the same.

export interface Keyed<Item> {
  readonly key: string;
  readonly item: Item;
  /** Position in the list, from 0. */
  readonly index: number;
}

/** Each item with a key made of what it says; repeats of one key are numbered, so that all keys differ. */
export function withKeys<Item>(
  items: readonly Item[],
  keyOf: (item: Item) => string,
): readonly Keyed<Item>[] {
  const seen = new Map<string, number>();
  return items.map((item, index) => {
    const base = keyOf(item);
    const count = seen.get(base) ?? 0;
    seen.set(base, count + 1);
    return { key: count === 0 ? base : `${base} #${count}`, item, index };
  });
}
