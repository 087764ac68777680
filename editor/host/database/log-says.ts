// What the lines of the log say that the data must be, gathered line by line.
import type { Tables } from "./tables.ts";

type Line = Tables["log"];
type Made = Pick<Line, "who" | "at">;

interface LoggedEdition extends Made {
  readonly print: string;
  readonly faults?: number | undefined;
  readonly reason?: string | undefined;
  readonly fingerprint?: string | undefined;
}
interface LoggedPerson {
  readonly made: number;
  role: string;
  id?: string | undefined;
  /** Hash of what is kept of the password. */
  kept?: string | undefined;
}

export interface LogSays {
  readonly editions: Map<string, LoggedEdition>;
  readonly versions: Map<string, Made & { readonly print: string }>;
  readonly drafts: Map<string, Made & { readonly print: string; readonly version: number }>;
  /** When a book was first heard of, and which edition named it last, or its draft. */
  readonly books: Map<string, { readonly begun: number; edition?: number | undefined }>;
  readonly texts: Set<string>;
  readonly photos: Map<string, Made & { readonly bytes: number }>;
  /** By name. */
  readonly people: Map<string, LoggedPerson>;
  readonly worked: Map<string, { readonly says: string; readonly trace?: string | undefined }>;
  /** Beginnings of the hashes of tokens. */
  readonly tokens: Set<string>;
  /** Since when the log names the tokens that it speaks of. */
  tokensSince: number;
  /** Hashes of whole rows, by table and key. */
  readonly rows: Map<string, string>;
}

export const emptySays = (): LogSays => ({
  editions: new Map(),
  versions: new Map(),
  drafts: new Map(),
  books: new Map(),
  texts: new Set(),
  photos: new Map(),
  people: new Map(),
  worked: new Map(),
  tokens: new Set(),
  tokensSince: 0,
  rows: new Map(),
});

interface Body {
  readonly print?: string;
  readonly photo?: string;
  readonly bytes?: number;
  readonly book?: string;
  readonly number?: number;
  readonly version?: number;
  readonly faults?: number;
  readonly reason?: string;
  readonly fingerprint?: string;
  readonly row?: string;
  readonly rows?: readonly (readonly [key: string, hash: string])[];
  readonly name?: string;
  readonly role?: string;
  readonly to?: string;
  readonly id?: string;
  readonly kept?: string;
  readonly job?: string;
  readonly says?: string;
  readonly trace?: string;
  readonly token?: string;
}

/** Adds what a line says. A line that cannot be read was changed, which its hash shows. */
export function hear(says: LogSays, line: Line): void {
  let body: Body;
  try {
    body = JSON.parse(line.body) as Body;
  } catch {
    return;
  }
  hearOfBooks(says, line, body);
  hearOfPeople(says, line, body);
  const { who, at } = line;
  switch (line.what) {
    case "text":
      says.texts.add(body.print!);
      break;
    case "photo":
      says.photos.set(body.photo!, { who, at, bytes: body.bytes! });
      break;
    case "worked again":
      says.worked.set(body.job!, { says: body.says!, trace: body.trace });
      break;
    case "attested":
      for (const [key, hash] of body.rows ?? []) says.rows.set(key, hash);
      says.tokensSince = at;
      break;
    case "restored":
      // Sessions and invitations belong to no backup.
      says.tokens.clear();
      break;
  }
}

function hearOfBooks(says: LogSays, { what, who, at }: Line, body: Body): void {
  const { book, number, version, print } = body;
  if (what === "draft") {
    says.versions.set(`${book} ${version}`, { who, at, print: print! });
    says.drafts.set(book!, { who, at, print: print!, version: version! });
  } else if (what === "edition") {
    const { faults, reason, fingerprint, row } = body;
    says.texts.add(print!);
    says.editions.set(`${book} ${number}`, { who, at, print: print!, faults, reason, fingerprint });
    if (row !== undefined) says.rows.set(`editions ${book} ${number}`, row);
  } else return;
  const known = says.books.get(book!) ?? { begun: at };
  known.edition = what === "edition" ? number : undefined;
  says.books.set(book!, known);
}

function hearOfPeople(says: LogSays, { what, who, at }: Line, body: Body): void {
  const { name = "", token } = body;
  switch (what) {
    case "joined":
      says.people.set(who, { made: at, role: body.role!, id: body.id, kept: body.kept });
      break;
    case "role changed": {
      const person = says.people.get(name);
      if (person !== undefined) person.role = body.to!;
      break;
    }
    case "removed":
      says.people.delete(name);
      break;
    case "password changed":
    case "password set anew": {
      const person = says.people.get(who);
      if (person !== undefined) person.kept = body.kept;
      break;
    }
  }
  if (token !== undefined) says.tokens.add(token);
}
