// Who has which draft open: by the events that their pages listen to, shared among all hosts of the shop and
// kept nowhere.
import { randomUUID } from "node:crypto";
import type { OpenBy } from "../../../core/schemas/host.ts";
import type { Database } from "../database/database.ts";

export interface Presence {
  /** Someone opens the draft; call what comes back when they leave. */
  enter(book: string, person: OpenBy): () => void;
  people(book: string): OpenBy[];
  on(listener: (book: string, people: OpenBy[]) => void): () => void;
  close(): void;
}

/**
 * Milliseconds between two tellings of what is open here, and after which a host that has fallen silent is
 * forgotten.
 */
const tellEvery = 20_000;
const forgetAfter = 65_000;

export function openPresence(database: Database): Presence {
  const self = randomUUID();
  const here = new Map<string, Set<OpenBy>>();
  const hosts = new Map<
    string,
    { readonly at: number; readonly open: Readonly<Record<string, readonly OpenBy[]>> }
  >();
  const listeners = new Set<(book: string, people: OpenBy[]) => void>();

  const people = (book: string): OpenBy[] => {
    const all = new Map<string, OpenBy>();
    for (const { at, open } of hosts.values())
      if (Date.now() - at < forgetAfter)
        for (const one of open[book] ?? []) all.set(`${one.who}\n${one.device}`, one);
    return [...all.values()].sort((a, b) => (a.who + a.device < b.who + b.device ? -1 : 1));
  };
  const announce = (): void =>
    database.sendToHosts(
      JSON.stringify({
        presence: self,
        open: Object.fromEntries([...here].map(([book, set]) => [book, [...set].slice(0, 30)])),
      }),
    );
  const stop = database.onHostMessage((message) => {
    const { presence, open } = JSON.parse(message) as { presence?: string; open?: Record<string, OpenBy[]> };
    if (presence === undefined || open === undefined) return;
    const before = hosts.get(presence)?.open ?? {};
    hosts.set(presence, { at: Date.now(), open });
    for (const book of new Set([...Object.keys(before), ...Object.keys(open)]))
      if (JSON.stringify(before[book] ?? []) !== JSON.stringify(open[book] ?? []))
        for (const listener of [...listeners]) listener(book, people(book));
  });
  const clock = setInterval(() => {
    if (here.size > 0) announce();
  }, tellEvery).unref();
  return {
    enter: (book, person) => {
      const mine = { ...person };
      here.set(book, (here.get(book) ?? new Set()).add(mine));
      announce();
      return () => {
        const set = here.get(book);
        if (set?.delete(mine) !== true) return;
        if (set.size === 0) here.delete(book);
        announce();
      };
    },
    people,
    on: (listener) => {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
    close: () => {
      clearInterval(clock);
      here.clear();
      announce();
      stop();
    },
  };
}
