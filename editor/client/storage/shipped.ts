// The books that come with the program. Each stays a file of its own and is fetched only when it is opened.
const files = import.meta.glob<string>("../../../rulesets/*.bevel", {
  query: "?url",
  import: "default",
  eager: true,
});

/** What opens where nobody has chosen a book yet. */
const OPENS = "road-panels";

/** Names of the shipped books, as their files are called, the one that opens by itself first. */
export const shippedBooks: readonly string[] = Object.keys(files)
  .map((path) => path.slice(path.lastIndexOf("/") + 1, -".bevel".length))
  .sort((a, b) => Number(b === OPENS) - Number(a === OPENS) || (a < b ? -1 : 1));

/** The text of a shipped book; undefined if there is none of that name or it cannot be fetched. */
export async function shippedBook(name: string): Promise<string | undefined> {
  const path = Object.keys(files).find((one) => one.endsWith(`/${name}.bevel`));
  const address = path === undefined ? undefined : files[path];
  if (address === undefined) return undefined;
  try {
    const answer = await fetch(address);
    return answer.ok ? (await answer.text()).replace(/\r\n?/g, "\n") : undefined;
  } catch {
    return undefined;
  }
}
