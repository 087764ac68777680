// The page's end of the talk with the worker: the versions it has sent, its copy of the last snapshot, and
// the names under which it sends texts. What the worker does not hold is sent whole.
import { applyDelta, deltaOf, spliceOf } from "./delta.ts";
import type { JobCalls, Snapshot, TextRef, UpdateReply, UpdateRequest, Wanted } from "./messages.ts";
import { carriedOver } from "./snapshot-delta.ts";
import type { Async } from "./worker-calls.ts";
import { callsBy } from "./worker-calls.ts";

interface Copy {
  readonly version: number;
  readonly wanted: Wanted;
  readonly snapshot: Snapshot;
}

export interface PageCopy {
  /** The request for what is wanted. */
  request(wanted: Wanted): UpdateRequest;
  /** Takes the reply to the last request into the copy. */
  take(reply: UpdateReply): Snapshot;
  /** The worker holds nothing of what was sent: from now on everything is sent whole. */
  forget(): void;
  /** The same calls, with texts named by the last version that was sent. */
  naming<Calls extends JobCalls>(engine: Async<Calls>): Async<Calls>;
}

/** Texts shorter than this are sent as they are. */
const longText = 1000;

export function pageCopy(): PageCopy {
  let version = 0;
  let copy: Copy | undefined;
  let sent: Wanted | undefined;
  const known = new Map<string, Wanted>();

  const named = (given: unknown): unknown => {
    if (typeof given !== "string" || given.length < longText || sent === undefined) return given;
    const splice = spliceOf(sent.text, given);
    const ref: TextRef = { version, splice };
    return splice.inserted.length < given.length / 2 ? ref : given;
  };

  return {
    request: (wanted) => {
      const change = deltaOf(copy?.wanted ?? {}, withoutKnown(wanted, copy?.wanted, known));
      version += 1;
      sent = wanted;
      return {
        version,
        ...(copy === undefined ? {} : { base: copy.version }),
        ...(change === undefined ? {} : { change }),
      };
    },
    take: (reply) => {
      const wanted = sent!;
      const snapshot =
        "snapshot" in reply ? reply.snapshot : applyDelta(carriedOver(copy!.snapshot, wanted), reply.delta);
      copy = { version, wanted, snapshot };
      if (wanted.hash !== undefined) known.set(wanted.hash, wanted);
      return snapshot;
    },
    forget: () => {
      copy = undefined;
      sent = undefined;
      known.clear();
    },
    naming: <Calls extends JobCalls>(engine: Async<Calls>) => {
      const calls = engine as unknown as Readonly<Record<string, (...given: unknown[]) => unknown>>;
      return callsBy<Calls>((name, given) => calls[name]!(...given.map(named)));
    },
  };
}

/** A book that the worker holds by its hash is sent without its texts. */
function withoutKnown(
  wanted: Wanted,
  base: Wanted | undefined,
  known: ReadonlyMap<string, Wanted>,
): Partial<Wanted> {
  const { hash = "" } = wanted;
  const book = known.get(hash);
  if (hash === base?.hash || book?.text !== wanted.text || deltaOf(book.shelf, wanted.shelf)) return wanted;
  const { text: _text, accepted: _accepted, shelf: _shelf, ...rest } = wanted;
  return rest;
}
