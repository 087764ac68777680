// The tables as the program sees them, the same in both databases. Times are milliseconds since
// 1970; lists and records are JSON.

export interface Tables {
  books: { name: string; title: string; begun: number };
  drafts: { book: string; version: number; text: string; print: string; who: string; at: number };
  /**
   * Each save as a change of the one before it; from time to time the whole text, so that no version is far
   * from one.
   */
  draft_history: {
    book: string;
    version: number;
    who: string;
    at: number;
    print: string;
    whole: string | null;
    change: string | null;
  };
  /** Texts by print: of sealed editions, and of books that a device has worked a job by. */
  texts: { print: string; text: string };
  editions: {
    book: string;
    number: number;
    title: string;
    print: string;
    stands: string;
    who: string;
    at: number;
    why: string;
    standing: string;
    faults: string;
    reason: string | null;
  };
  /** Each job folded from its entries, for lists and searching; it can be rebuilt from them. */
  jobs: {
    id: string;
    title: string;
    book: string;
    edition: number | null;
    print: string;
    state: "open" | "signed";
    begun: number;
    changed: number;
    signed_at: number | null;
    signed_by: string | null;
    after_signing: number;
    search: string;
    agreement: "not signed" | "waiting" | "same" | "differs" | "book unknown" | "cannot be worked";
    trace: Uint8Array | null;
    /** When the host received the signature, and from whom; absent while the job is open. */
    closed_at: number | null;
    closed_by: string | null;
    /** Version of the folding that made this row; an older one is folded anew when the database is opened. */
    fold: number;
  };
  job_entries: {
    id: string;
    job: string;
    at: number;
    device: string;
    delivered_by: string;
    delivered_at: number;
    print: string;
    body: string;
    /** Line of the log that it was received with: the host's own order. */
    line: number;
    /** Milliseconds by which the device's clock was ahead of the host's when it delivered. */
    skew: number | null;
  };
  photos: { print: string; type: string; bytes: number; who: string; at: number; content: Uint8Array };
  people: {
    id: string;
    name: string;
    name_key: string;
    role: "lead" | "technician" | "viewer";
    password: string;
    made: number;
  };
  /** Of the tokens only their hashes: who reads the database can open nothing with them. */
  sessions: { token: string; person: string; begun: number; seen: number; device: string };
  invitations: {
    token: string;
    role: "lead" | "technician" | "viewer";
    person: string | null;
    who: string;
    made: number;
    ends: number;
  };
  /** Failed sign-ins by name and by address, kept so that a new start forgets none. */
  attempts: { key: string; failures: number; at: number; until: number };
  log: { seq: number; at: number; who: string; what: string; body: string; before: string; hash: string };
}

export type TableName = keyof Tables;

/**
 * Every table with the key of its rows: everything that a backup holds, in an order in which rows may be
 * put back. A new table joins here; what lets a browser in (sessions, invitations) and failed attempts belong
 * to no backup.
 */
export const tableKeys: readonly {
  readonly table: TableName;
  readonly key: readonly string[];
  readonly page: number;
}[] = [
  { table: "books", key: ["name"], page: 500 },
  { table: "texts", key: ["print"], page: 50 },
  { table: "drafts", key: ["book"], page: 50 },
  { table: "draft_history", key: ["book", "version"], page: 500 },
  { table: "editions", key: ["book", "number"], page: 500 },
  { table: "jobs", key: ["id"], page: 500 },
  { table: "job_entries", key: ["id"], page: 1000 },
  { table: "photos", key: ["print"], page: 4 },
  { table: "people", key: ["id"], page: 500 },
  { table: "log", key: ["seq"], page: 1000 },
];

/** What is written once and never changed: a trigger refuses it, whoever asks. */
export const sealedTables: readonly TableName[] = [
  "texts",
  "editions",
  "job_entries",
  "photos",
  "log",
  "draft_history",
];
