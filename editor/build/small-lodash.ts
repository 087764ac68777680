// The calls that the parser's package makes of a large library of helpers, written small: the pages are built
// with this file in its place. Only what that package uses is here, as it uses it; a test holds each against
// a whole library.
// biome-ignore-all lint/suspicious/noExplicitAny: the library takes and gives anything.

type Each = (value: any, key: any) => unknown;
type Many = any;

const isListed = (all: Many): boolean =>
  all !== null && all !== undefined && typeof all !== "function" && typeof all.length === "number";

/**
 * Keys and values as the calls below meet them: by place in a list or a text, by key in an object, none in
 * nothing.
 */
function pairs(all: Many): [any, any][] {
  if (all === null || all === undefined) return [];
  return isListed(all) ? Array.from(all, (value, at) => [at, value]) : Object.entries(all);
}

/** A function, the name of a property, or nothing for the value itself. */
const called = (by: Each | string | undefined): Each =>
  typeof by === "function" ? by : by === undefined ? identity : (value) => value?.[by];

export const identity = (value: any): any => value;
export const noop = (): void => undefined;

export const isArray = Array.isArray;
export const isFunction = (value: unknown): boolean => typeof value === "function";
export const isObject = (value: unknown): boolean =>
  (typeof value === "object" && value !== null) || typeof value === "function";
export const isRegExp = (value: unknown): boolean => value instanceof RegExp;
export const isString = (value: unknown): boolean => typeof value === "string";
export const isUndefined = (value: unknown): boolean => value === undefined;
export const isEmpty = (all: Many): boolean =>
  all instanceof Map || all instanceof Set
    ? all.size === 0
    : typeof all !== "object" && typeof all !== "string"
      ? true
      : pairs(all).length === 0;

/** Ends where `act` gives false. */
export function forEach(all: Many, act: Each): Many {
  // Lists, the common case, go without pairs: the parser calls this thousands of times as it starts.
  if (Array.isArray(all)) {
    const { length } = all;
    for (let i = 0; i < length; i += 1) if (act(all[i], i) === false) break;
  } else for (const [key, value] of pairs(all)) if (act(value, key) === false) break;
  return all;
}
export const map = (all: Many, by?: Each | string): any[] => {
  const to = called(by);
  // Read by place, so that holes are values too.
  if (Array.isArray(all)) return Array.from(all, (value, key) => to(value, key));
  return pairs(all).map(([key, value]) => to(value, key));
};
export const flatMap = (all: Many, by?: Each | string): any[] => flatten(map(all, by));
export const filter = (all: Many, by?: Each | string): any[] => {
  const is = called(by);
  return pairs(all).flatMap(([key, value]) => (is(value, key) ? [value] : []));
};
export const reject = (all: Many, by?: Each | string): any[] => {
  const is = called(by);
  return filter(all, (value, key) => !is(value, key));
};
export const find = (all: Many, by?: Each | string): any => {
  const is = called(by);
  return pairs(all).find(([key, value]) => is(value, key))?.[1];
};
export const every = (all: Many, by?: Each | string): boolean => {
  const is = called(by);
  return pairs(all).every(([key, value]) => is(value, key));
};
export const some = (all: Many, by?: Each | string): boolean => {
  const is = called(by);
  return pairs(all).some(([key, value]) => is(value, key));
};
export function reduce(all: Many, by: (sum: any, value: any, key: any) => any, ...first: [any?]): any {
  const [head, ...rest] = pairs(all);
  if (first.length > 0) return pairs(all).reduce((sum, [key, value]) => by(sum, value, key), first[0]);
  return rest.reduce((sum, [key, value]) => by(sum, value, key), head?.[1]);
}
export function groupBy(all: Many, by?: Each | string): Record<string, any[]> {
  const to = called(by);
  const groups: Record<string, any[]> = {};
  for (const [key, value] of pairs(all)) {
    const name = String(to(value, key));
    groups[name] ??= [];
    groups[name].push(value);
  }
  return groups;
}

export const keys = (all: Many): string[] => pairs(all).map(([key]) => String(key));
export const values = (all: Many): any[] => pairs(all).map(([, value]) => value);
/** Own keys only, and no paths. */
export const has = (all: Many, key: PropertyKey): boolean =>
  all !== null && all !== undefined && Object.hasOwn(all, key);
export const includes = (all: Many, value: any): boolean =>
  typeof all === "string" ? all.includes(value) : values(all).includes(value);
export const indexOf = (all: Many, value: any): number => (all ?? []).indexOf(value);
export const pickBy = (all: Many, by?: Each): Record<string, any> => {
  const is = called(by);
  return Object.fromEntries(pairs(all).filter(([key, value]) => is(value, key)));
};

export const assign = Object.assign;
export function defaults(to: any, ...from: any[]): any {
  for (const one of from) for (const key in one) if (to[key] === undefined) to[key] = one[key];
  return to;
}
/** A shallow copy. */
export const clone = (value: any): any =>
  Array.isArray(value)
    ? [...value]
    : typeof value !== "object" || value === null
      ? value
      : Object.assign(Object.create(Object.getPrototypeOf(value)), value);

export const compact = (all: Many): any[] => values(all).filter(Boolean);
export const difference = (all: Many, ...without: any[][]): any[] => {
  const gone = new Set(without.flat());
  return values(all).filter((value) => !gone.has(value));
};
export const flatten = (all: Many): any[] => values(all).flat();
export const uniq = (all: Many): any[] => [...new Set(values(all))];
export const first = (all: Many): any => all?.[0];
export const last = (all: Many): any => all?.[all.length - 1];
export const drop = (all: Many, count = 1): any[] => values(all).slice(count);
export const dropRight = (all: Many, count = 1): any[] =>
  values(all).slice(0, Math.max(0, values(all).length - count));

export const upperFirst = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
