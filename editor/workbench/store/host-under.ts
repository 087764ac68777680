// The sealed editions of the shop's host that a text stands on, and those that they stand on: the very
// editions that are named, else the newest.
import type { HostClient } from "../../client/storage/host-client.ts";

/** Books that may stand below one another. */
const deepest = 20;

/** What a text says that it stands on. */
export function namedIn(
  text: string,
): readonly { readonly name: string; readonly edition: number | undefined }[] {
  const named = [
    ...text.matchAll(
      /^(?:use[ \t]+|book[ \t][^\n]*\bamends[ \t]+)([a-z][a-z0-9-]*)(?:,[ \t]*edition[ \t]+(\d{1,9}))?/gm,
    ),
  ];
  return named.map(([, name, edition]) => ({
    name: name!,
    edition: edition === undefined ? undefined : Number(edition),
  }));
}

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
  for (let depth = 0; look.length > 0 && depth < deepest; depth += 1) {
    const next: string[] = [];
    for (const { name, edition } of look.flatMap(namedIn)) {
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
