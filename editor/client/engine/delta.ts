// The difference between two versions of plain data: small enough to send in place of the second version.
// Any two values have a difference, and applying it to the first gives the second, field by field. A field
// that is undefined counts as absent.

/** One stretch of a text is replaced: `removed` characters from `at` on give way to `inserted`. */
export interface TextSplice {
  readonly at: number;
  readonly removed: number;
  readonly inserted: string;
}

export type Delta =
  /** A new value altogether. */
  | { readonly value: unknown }
  | { readonly splice: TextSplice }
  /** The new list, piece by piece. */
  | { readonly list: readonly ListPart[] }
  | {
      readonly fields: Readonly<Record<string, Delta>>;
      readonly gone?: readonly string[];
      /** Names in their new order, where that is not the old one with new names at its end. */
      readonly order?: readonly string[];
    };

/** Old items as they were: how many from which place. One old item, changed. Or new items. */
type ListPart =
  | readonly [from: number, count: number]
  | { readonly from: number; readonly delta: Delta }
  | { readonly added: readonly unknown[] };

/** Texts shorter than this are sent whole. */
const longText = 200;

/** Undefined where both are alike. */
export function deltaOf(before: unknown, after: unknown): Delta | undefined {
  if (Object.is(before, after)) return undefined;
  if (Array.isArray(before) && Array.isArray(after)) return listDelta(before, after);
  if (isRecord(before) && isRecord(after)) return recordDelta(before, after);
  if (typeof before === "string" && typeof after === "string" && after.length > longText)
    return { splice: spliceOf(before, after) };
  return { value: after };
}

/** What `deltaOf` compared `before` with. What did not change is the very same object afterwards. */
export function applyDelta<T>(before: T, delta: Delta | undefined): T;
export function applyDelta(before: unknown, delta: Delta | undefined): unknown {
  if (delta === undefined) return before;
  if ("value" in delta) return delta.value;
  if ("splice" in delta) return spliced(before as string, delta.splice);
  if ("list" in delta) return applyList(before as readonly unknown[], delta.list);
  return applyFields(before as Fields, delta);
}

/** The shortest single splice that makes `after` of `before`. */
export function spliceOf(before: string, after: string): TextSplice {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before.charCodeAt(head) === after.charCodeAt(head)) head += 1;
  let tail = 0;
  while (
    tail < most - head &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail += 1;
  return {
    at: head,
    removed: before.length - tail - head,
    inserted: after.slice(head, after.length - tail),
  };
}

export const spliced = (text: string, { at, removed, inserted }: TextSplice): string =>
  text.slice(0, at) + inserted + text.slice(at + removed);

type Fields = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

function recordDelta(before: Fields, after: Fields): Delta | undefined {
  const fields: [string, Delta][] = [];
  const names = Object.keys(after).filter((name) => after[name] !== undefined);
  for (const name of names) {
    const delta = Object.hasOwn(before, name) ? deltaOf(before[name], after[name]) : { value: after[name] };
    if (delta !== undefined) fields.push([name, delta]);
  }
  const wanted = new Set(names);
  const old = Object.keys(before);
  const gone = old.filter((name) => before[name] !== undefined && !wanted.has(name));
  const place = old.filter((name) => wanted.has(name));
  // The order counts: answers are read in theirs.
  const moved = place.some((name, i) => names[i] !== name);
  if (fields.length === 0 && gone.length === 0 && !moved) return undefined;
  return {
    fields: Object.fromEntries(fields),
    ...(gone.length > 0 ? { gone } : {}),
    ...(moved ? { order: names } : {}),
  };
}

function applyFields(
  before: Fields,
  { fields, gone = [], order }: Extract<Delta, { fields: unknown }>,
): Fields {
  const left = new Set(gone);
  const names = order ?? [
    ...Object.keys(before).filter((name) => !left.has(name)),
    ...Object.keys(fields).filter((name) => !Object.hasOwn(before, name)),
  ];
  // Made from entries, so that no name in a book is mistaken for a property that every object has.
  return Object.fromEntries(
    names.map((name) => {
      const old = Object.hasOwn(before, name) ? before[name] : undefined;
      return [name, Object.hasOwn(fields, name) ? applyDelta(old, fields[name]) : old];
    }),
  );
}

/** Items are matched by what names them, the second of one name with the second, wherever they are now. */
function listDelta(before: readonly unknown[], after: readonly unknown[]): Delta | undefined {
  if (before.length === after.length && after.every((item, i) => Object.is(item, before[i])))
    return undefined;
  const places = new Map<unknown, number[]>();
  before.forEach((item, i) => {
    const key = keyOf(item);
    const known = places.get(key);
    if (known === undefined) places.set(key, [i]);
    else known.push(i);
  });
  const used = new Map<unknown, number>();
  const parts: ListPart[] = [];
  for (const item of after) {
    const key = keyOf(item);
    const turn = used.get(key) ?? 0;
    used.set(key, turn + 1);
    const from = places.get(key)?.[turn];
    addPart(parts, from === undefined ? { added: [item] } : partFrom(from, before[from], item));
  }
  const [only] = parts;
  const whole = parts.length === 1 && Array.isArray(only) && only[0] === 0 && only[1] === before.length;
  return whole || (parts.length === 0 && before.length === 0) ? undefined : { list: parts };
}

function partFrom(from: number, old: unknown, item: unknown): ListPart {
  const delta = deltaOf(old, item);
  if (delta === undefined) return [from, 1];
  return "value" in delta ? { added: [item] } : { from, delta };
}

/** Joins a part to the last one where both are stretches of the old list, or both new. */
function addPart(parts: ListPart[], part: ListPart): void {
  const last = parts.at(-1);
  if (last !== undefined && isStretch(last) && isStretch(part) && last[0] + last[1] === part[0])
    parts[parts.length - 1] = [last[0], last[1] + part[1]];
  else if (last !== undefined && "added" in last && "added" in part)
    parts[parts.length - 1] = { added: [...last.added, ...part.added] };
  else parts.push(part);
}

const isStretch = (part: ListPart): part is readonly [number, number] => Array.isArray(part);

const applyList = (before: readonly unknown[], parts: readonly ListPart[]): readonly unknown[] =>
  parts.flatMap((part) =>
    isStretch(part)
      ? before.slice(part[0], part[0] + part[1])
      : "added" in part
        ? part.added
        : [applyDelta(before[part.from], part.delta)],
  );

/** What names an item within its list, where anything does. */
function keyOf(item: unknown): unknown {
  const key = isRecord(item)
    ? (item["id"] ?? item["name"] ?? item["argument"] ?? item["what"] ?? item["says"])
    : item;
  return typeof key === "object" ? undefined : key;
}
