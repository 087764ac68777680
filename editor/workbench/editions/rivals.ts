// The texts that can be held against each other: the one on the bench, the same as last accepted, sealed
// editions and drafts of the shop's host, the book underneath, the other books kept in this browser, and
// those that come with the program.
import type { EditionLine } from "../../../core/schemas/host.ts";
import { headOf } from "../../../engine/index.ts";
import { editionIn } from "../shop-host/edition-text.ts";
import type { WorkbenchStore } from "../store/document.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { shippedBook, shippedBooks } from "../../client/storage/shipped.ts";
import { nameIn } from "../store/shop.ts";

export interface Rival {
  readonly key: string;
  /** "as last accepted", "road-panels, as it comes with the program". */
  readonly says: string;
  /** Undefined where it cannot be fetched. */
  readonly text: () => Promise<string | undefined>;
}

/** Which two are held against each other, by key. */
export interface Pair {
  readonly after: string;
  readonly before: string;
}
export const firstPair: Pair = { after: "bench", before: "accepted" };

export interface FromHost {
  readonly client: HostClient;
  readonly editions: readonly EditionLine[];
  /** A version of the draft's history that shall be among them. */
  readonly version?: number;
}

export function rivalsOf(store: WorkbenchStore, host?: FromHost): readonly Rival[] {
  const { desk: document, books, key, snapshot, shelf } = store.state();
  const own = snapshot?.name ?? key;
  const shipped = [...shippedBooks].sort((a, b) => Number(b === own) - Number(a === own));
  const under = headOf(document.text)?.amends;
  const base =
    under &&
    (shelf ?? []).find(
      (text) =>
        nameIn(text) === under.name && (under.edition === undefined || editionIn(text) === under.edition),
    );
  return [
    { key: "bench", says: "the text on the bench", text: async () => document.text },
    { key: "accepted", says: "the same book as last accepted", text: async () => document.accepted },
    ...(under !== undefined && base !== undefined
      ? [
          {
            key: "under",
            says:
              under.name +
              `${under.edition === undefined ? "" : `, edition ${under.edition}`}, the book ` +
              "underneath",
            text: async () => base,
          },
        ]
      : []),
    ...(host?.version === undefined
      ? []
      : [
          {
            key: `version ${host.version}`,
            says: `the draft's version ${host.version}`,
            text: () => host.client.draftVersion(own, host.version!).catch(() => undefined),
          },
        ]),
    ...(host?.editions ?? []).map(
      (one): Rival => ({
        key: `sealed ${one.number}`,
        says: `edition ${one.number}, sealed${one.faults.length > 0 ? " with faults" : ""}`,
        text: () =>
          host!.client.edition(one.book, one.number).then(
            (found) => found.text,
            () => undefined,
          ),
      }),
    ),
    ...shipped.map(
      (name): Rival => ({
        key: `shipped ${name}`,
        says: `${name}, as it comes with the program`,
        text: () => shippedBook(name),
      }),
    ),
    ...books
      .filter((book) => book.key !== key)
      .map(
        (book): Rival => ({
          key: `kept ${book.key}`,
          says: `${book.key}, kept in this browser`,
          text: () => store.textOf(book.key),
        }),
      ),
  ];
}
