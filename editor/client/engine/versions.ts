// The worker's end of the talk with a page: the last versions that the page has sent, each with its snapshot.
// A request names the version that the page has, and the reply says what differs from it.
import { snapshotOf } from "./held-books.ts";
import type { BookCache } from "./held-books.ts";
import { applyDelta, deltaOf, spliced } from "./delta.ts";
import { missedVersion } from "./messages.ts";
import type { Snapshot, TextRef, UpdateReply, UpdateRequest, Wanted } from "./messages.ts";
import { carriedOver } from "./snapshot-delta.ts";

interface Version {
  readonly version: number;
  readonly wanted: Wanted;
  readonly snapshot: Snapshot;
}

export interface Versions {
  readonly cache: BookCache;
  /** The last one first. */
  readonly held: Version[];
}

/** The page names the last version that it has sent, or the one before while an update is under way. */
const mostHeld = 2;

export const noVersions = (cache: BookCache): Versions => ({ cache, held: [] });

/** Throws `MissedVersion` where the base, or a book named by its hash, is not held. */
export function update(versions: Versions, { version, base, change }: UpdateRequest): UpdateReply {
  const old = base === undefined ? undefined : versionOf(versions, base);
  const wanted = withBook(versions, applyDelta(old?.wanted ?? {}, change) as Wanted);
  const snapshot = snapshotOf(versions.cache, wanted);
  versions.held.unshift({ version, wanted, snapshot });
  versions.held.length = Math.min(versions.held.length, mostHeld);
  if (old === undefined) return { snapshot };
  const delta = deltaOf(carriedOver(old.snapshot, wanted), snapshot);
  return delta === undefined ? {} : { delta };
}

/** The text that a page names. Throws `MissedVersion`. */
export const textOf = (versions: Versions, ref: TextRef): string =>
  spliced(versionOf(versions, ref.version).wanted.text, ref.splice);

function versionOf(versions: Versions, version: number): Version {
  const found = versions.held.find((one) => one.version === version);
  if (found === undefined) throw missed(`version ${version}`);
  return found;
}

/** A page that has sent a book already names it by its hash and leaves its texts out. */
function withBook({ cache }: Versions, wanted: Omit<Wanted, "text"> & Partial<Wanted>): Wanted {
  const { text, hash = "" } = wanted;
  if (text !== undefined) return { ...wanted, text };
  const book = cache.byHash.get(hash);
  if (book === undefined) throw missed(`a book of hash ${hash}`);
  return { ...wanted, text: book.text, accepted: book.text, shelf: cache.shelfOf.get(book) };
}

const missed = (what: string): Error =>
  Object.assign(new Error(`The worker does not hold ${what}.`), { name: missedVersion });
