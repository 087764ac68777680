// The shop's host as the pages ask it. Shapes are those of core/schemas/host.ts, by type alone, so that no
// page carries the checking of what its own host sends. A refusal is thrown as a `HostRefusal` with the
// host's sentence; a host that cannot be reached as one of status 0.
import type { JobEntry } from "../../../core/record.ts";
import type {
  Agreement,
  AnswersList,
  BookByPrint,
  BookList,
  Delivered,
  Draft,
  DraftConflict,
  DraftHistory,
  DraftSave,
  DraftSaved,
  Edition,
  EditionLine,
  EditionList,
  EntryList,
  Hello,
  HostEvent,
  JobFull,
  JobList,
  JobTrace,
  LogList,
  LogVerdict,
  PhotoKept,
  SealProgress,
  SealRefused,
  SealRequest,
} from "../../../core/schemas/host.ts";

export class HostRefusal extends Error {
  /** Of the answer; 0 where there was none, because the host is away or the network is. */
  readonly status: number;
  constructor(status: number, says: string) {
    super(says);
    this.name = "HostRefusal";
    this.status = status;
  }
}

export interface HostClient {
  hello(): Promise<Hello>;
  books(): Promise<BookList>;
  draft(book: string): Promise<Draft>;
  saveDraft(
    book: string,
    save: DraftSave,
  ): Promise<{ readonly saved: DraftSaved } | { readonly conflict: DraftConflict }>;
  draftHistory(
    book: string,
    page?: { readonly before?: number; readonly limit?: number },
  ): Promise<DraftHistory>;
  draftVersion(book: string, version: number): Promise<string>;
  editions(page?: {
    readonly book?: string;
    readonly search?: string;
    readonly skip?: number;
    readonly limit?: number;
  }): Promise<EditionList>;
  edition(book: string, number: number): Promise<Edition>;
  /** Refused with its faults where the book has some and no reason is given. */
  seal(
    book: string,
    request: SealRequest,
  ): Promise<{ readonly sealed: EditionLine } | { readonly refused: SealRefused }>;
  /** How far the host is with a book that is being sealed. */
  sealProgress(book: string): Promise<SealProgress>;
  /** The own text of a book by its print. */
  text(print: string): Promise<string>;
  keepText(print: string, text: string): Promise<void>;
  /** At most 500 at once. */
  deliver(entries: readonly JobEntry[]): Promise<Delivered>;
  jobs(page?: {
    readonly search?: string;
    readonly book?: string;
    readonly state?: "open" | "signed";
    readonly before?: string;
    readonly limit?: number;
  }): Promise<JobList>;
  /** The answers of many jobs at once; pages as `jobs` does. */
  answers(page?: {
    readonly book?: string;
    readonly before?: string;
    readonly limit?: number;
  }): Promise<AnswersList>;
  job(id: string): Promise<JobFull>;
  /** In the order in which the host received them. */
  entries(id: string, page: { readonly skip: number; readonly limit: number }): Promise<EntryList>;
  again(id: string): Promise<Agreement>;
  trace(id: string): Promise<JobTrace>;
  keepPhoto(photo: string, bytes: Blob): Promise<PhotoKept>;
  /** For the source of a picture. */
  photoAddress(photo: string): string;
  log(page?: { readonly before?: number; readonly limit?: number }): Promise<LogList>;
  verifyLog(head?: string): Promise<LogVerdict>;
  /**
   * Calls back for each event, and goes on after the network was away with what was missed. `draft` tells the
   * others that it is open here. `known` hears at each new beginning whether the host knows who listens: not,
   * once the session has ended.
   */
  events(
    what: { readonly draft?: string; readonly device?: string; readonly after?: number },
    hear: (event: HostEvent, id?: number) => void,
    known?: (is: boolean) => void,
  ): () => void;
}

type Query = Readonly<Record<string, string | number | undefined>>;

/** Requests under one address: `good` throws a `HostRefusal` for an answer that is a refusal. */
function requestsTo(address: string) {
  const at = (path: string, query: Query = {}): string => {
    const given = Object.entries(query)
      .filter(([, value]) => value !== undefined)
      .map(([name, value]) => `${name}=${encodeURIComponent(String(value))}`)
      .join("&");
    return `${address}api/${path}${given === "" ? "" : `?${given}`}`;
  };
  const ask = async (
    method: string,
    url: string,
    body?: unknown,
  ): Promise<{ status: number; data: unknown }> => {
    let answer: Response;
    try {
      answer = await fetch(url, {
        method,
        ...(body === undefined
          ? {}
          : body instanceof Blob
            ? { body }
            : { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }),
      });
    } catch {
      throw new HostRefusal(0, "The shop's host cannot be reached.");
    }
    let data: unknown;
    try {
      data = await answer.json();
    } catch {
      throw new HostRefusal(answer.status, "The shop's host gave an answer that cannot be read.");
    }
    return { status: answer.status, data };
  };
  const good = async <T>(asked: Promise<{ status: number; data: unknown }>): Promise<T> => {
    const { status, data } = await asked;
    if (status >= 300)
      throw new HostRefusal(status, (data as { says?: string }).says ?? "The shop's host refused this.");
    return data as T;
  };
  const get = <T>(path: string, query?: Query): Promise<T> => good<T>(ask("GET", at(path, query)));
  return { at, ask, good, get };
}

/** `address` is that of the host, ending with a slash; "" for the one that the page came from. */
export function hostClient(address = ""): HostClient {
  const { at, ask, good, get } = requestsTo(address);
  return {
    hello: () => get("hello"),
    books: () => get("books"),
    draft: (book) => get(`books/${book}/draft`),
    saveDraft: async (book, save) => {
      const { status, data } = await ask("PUT", at(`books/${book}/draft`), save);
      if (status === 409 && typeof data === "object" && data !== null && "merged" in data)
        return { conflict: data as DraftConflict };
      return { saved: await good<DraftSaved>(Promise.resolve({ status, data })) };
    },
    draftHistory: (book, page) => get(`books/${book}/draft/history`, { ...page }),
    draftVersion: async (book, version) =>
      (await get<{ text: string }>(`books/${book}/draft/history/${version}`)).text,
    editions: ({ book, ...page } = {}) =>
      get(book === undefined ? "editions" : `books/${book}/editions`, { ...page }),
    edition: (book, number) => get(`books/${book}/editions/${number}`),
    seal: async (book, request) => {
      const { status, data } = await ask("POST", at(`books/${book}/editions`), request);
      if (status === 422 && typeof data === "object" && data !== null && "faults" in data)
        return { refused: data as SealRefused };
      return { sealed: await good<EditionLine>(Promise.resolve({ status, data })) };
    },
    sealProgress: (book) => get(`books/${book}/sealing`),
    text: async (print) => (await get<BookByPrint>(`texts/${print}`)).text,
    keepText: async (print, text) => {
      await good(ask("PUT", at(`texts/${print}`), { text }));
    },
    deliver: (entries) => good(ask("POST", at("jobs/entries"), { entries })),
    jobs: (page) => get("jobs", { ...page }),
    answers: (page) => get("answers", { ...page }),
    job: (id) => get(`jobs/${id}`),
    entries: (id, page) => get(`jobs/${id}/entries`, page),
    again: (id) => get(`jobs/${id}/again`),
    trace: (id) => get(`jobs/${id}/trace`),
    keepPhoto: (photo, bytes) => good(ask("PUT", at(`photos/${photo}`), bytes)),
    photoAddress: (photo) => at(`photos/${photo}`),
    log: (page) => get("log", { ...page }),
    verifyLog: (head) => get("log/verify", { head }),
    events: (what, hear, known) =>
      listen((after) => at("events", { ...what, after }), what.after, hear, known),
  };
}

/**
 * Read by hand rather than by the browser's own source of events: it also goes where that is not, and ends
 * when it is told to.
 */
function listen(
  address: (after: number | undefined) => string,
  from: number | undefined,
  hear: (event: HostEvent, id?: number) => void,
  known: (is: boolean) => void = () => undefined,
): () => void {
  const end = new AbortController();
  let seen = from;
  void (async () => {
    for (let pause = 1000; !end.signal.aborted; pause = Math.min(pause * 2, 30_000)) {
      try {
        const answer = await fetch(address(seen), { signal: end.signal });
        if (answer.ok || answer.status === 401) known(answer.ok);
        if (!answer.ok || answer.body === null) throw new Error();
        const reader = answer.body.getReader();
        const decoder = new TextDecoder();
        let text = "";
        for (;;) {
          const { done, value } = await reader.read();
          if (done) break;
          pause = 1000;
          text += decoder.decode(value, { stream: true });
          const blocks = text.split("\n\n");
          text = blocks.pop()!;
          for (const block of blocks) {
            const data = /^data: (.*)$/m.exec(block)?.[1];
            if (data === undefined) continue;
            const event = JSON.parse(data) as HostEvent;
            const id = /^id: (\d+)$/m.exec(block)?.[1];
            seen = event.is === "anew" ? undefined : id === undefined ? seen : Number(id);
            if (!end.signal.aborted) hear(event, id === undefined ? undefined : Number(id));
          }
        }
      } catch {
        /* The host or the network is away; it is asked again. */
      }
      if (!end.signal.aborted)
        await new Promise((resolve) => {
          setTimeout(resolve, pause);
        });
    }
  })();
  return () => end.abort();
}
