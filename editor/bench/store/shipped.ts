// The books that come with the program, as text in the bundle; each is loaded only when it is opened.
const files = import.meta.glob<string>("../../../rulesets/*.bevel", { query: "?raw", import: "default" });

/** Names of the shipped books, as their files are called. */
export const shippedBooks: readonly string[] = Object.keys(files).map((path) => path.slice(path.lastIndexOf("/") + 1, -".bevel".length)).sort();

/** The text of a shipped book; undefined if there is none of that name. */
export async function shippedBook(name: string): Promise<string | undefined> {
  const path = Object.keys(files).find((one) => one.endsWith(`/${name}.bevel`));
  return path ? (await files[path]?.())?.replace(/\r\n?/g, "\n") : undefined;
}
