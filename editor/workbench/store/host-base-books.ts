// The sealed editions of the shop's host that a text stands on, and those that they stand on: the very
// editions that are named, else the newest.
import { MAX_CHAIN_OF_BOOKS } from "../../../core/limits.ts";
import { dependenciesOf } from "../../../engine/index.ts";
import type { HostClient } from "../../client/storage/host-client.ts";

/** Empty where there is no host, or where it has none of them. */
export async function underFromHost(
  client: Pick<HostClient, "books" | "edition">,
  text: string,
): Promise<readonly string[]> {
  const books = new Map(
    (await client.books().catch(() => ({ books: [] }))).books.map((book) => [
      book.name,
      book.edition?.number,
    ]),
  );
  const found = new Map<string, string>();
  let look = [text];
  for (let depth = 0; look.length > 0 && depth < MAX_CHAIN_OF_BOOKS; depth += 1) {
    const next: string[] = [];
    for (const { name, edition } of look.flatMap(dependenciesOf)) {
      const number = edition ?? books.get(name);
      if (number === undefined || books.get(name) === undefined || found.has(`${name} ${number}`)) continue;
      const under = await client.edition(name, number).then(
        (one) => one.text,
        () => undefined,
      );
      if (under === undefined) continue;
      found.set(`${name} ${number}`, under);
      next.push(under);
    }
    look = next;
  }
  return [...found.values()];
}
