// Who is next: people take turns, whoever has asked how much. Equal questions are one, and a question that
// nobody waits for any more is forgotten.
import { Trouble } from "../trouble.ts";

/** Questions that may wait: of one person, and of all together. */
export const mostWaiting = { person: 8, all: 100 } as const;

export interface Asker {
  readonly who: string;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (cause: Trouble) => void;
}

export interface Shared<Asked> {
  readonly key: string;
  readonly asked: Asked;
  readonly askers: Set<Asker>;
}

export interface FairQueue<Asked> {
  /** Adds the question, or the asker to the same one. Throws a `Trouble` where too many wait. */
  put(key: string, asked: Asked, asker: Asker): Shared<Asked>;
  /** The next question, which waits no longer. */
  next(): Shared<Asked> | undefined;
  remove(shared: Shared<Asked>): void;
  /** Forgets all; comes back with who waited. */
  clear(): readonly Asker[];
}

export function fairQueue<Asked>(): FairQueue<Asked> {
  /** In the order in which their turns come. */
  const people = new Map<string, Shared<Asked>[]>();
  const waiting = new Map<string, Shared<Asked>>();
  const remove = (shared: Shared<Asked>): void => {
    waiting.delete(shared.key);
    for (const [who, list] of [...people]) {
      const rest = list.filter((one) => one !== shared);
      if (rest.length === 0) people.delete(who);
      else people.set(who, rest);
    }
  };
  return {
    put: (key, asked, asker) => {
      const own = people.get(asker.who) ?? [];
      const shared = waiting.get(key) ?? { key, asked, askers: new Set() };
      if (!own.includes(shared)) {
        if (own.length >= mostWaiting.person)
          throw new Trouble(
            429,
            `${own.length} of your questions to the engine wait already. Wait until one is answered.`,
          );
        if (!waiting.has(key) && waiting.size >= mostWaiting.all)
          throw new Trouble(429, "The engine has too much to do just now. Try again in a minute.");
        people.set(asker.who, [...own, shared]);
        waiting.set(key, shared);
      }
      shared.askers.add(asker);
      return shared;
    },
    next: () => {
      const [first] = people;
      if (first === undefined) return undefined;
      const [who, list] = first;
      const shared = list[0]!;
      remove(shared);
      // Behind everybody else.
      const rest = people.get(who);
      people.delete(who);
      if (rest !== undefined) people.set(who, rest);
      return shared;
    },
    remove,
    clear: () => {
      const askers = [...waiting.values()].flatMap((shared) => [...shared.askers]);
      people.clear();
      waiting.clear();
      return askers;
    },
  };
}
