// The text that a new layer begins with: its head, which names the book that it stands on.
import { headOf } from "../../../engine/index.ts";

const NAME = /^[\p{L}][\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{M}\p{N}]+)*$/u;

/**
 * Why a layer over this text cannot have this name; undefined where it can. `others` are the names of the
 * books on the shop's host: a second book of one name would run into its draft and its editions.
 */
export function nameTrouble(base: string, name: string, others: readonly string[] = []): string | undefined {
  if (name === "") return "Give it a name.";
  if (!NAME.test(name)) return "A name is letters and digits with single hyphens between: north-yard.";
  if (headOf(base)?.name === name) return "The book underneath has that name already.";
  if (others.includes(name)) return `The shop’s host has a book ${name} already.`;
  return undefined;
}

/** The head alone: everything else is as the book underneath has it. */
export function newLayer(base: string, name: string, title: string): string | undefined {
  const head = headOf(base);
  if (head === undefined || nameTrouble(base, name) !== undefined) return undefined;
  return (
    `-- Everything that is not said here is as ${head.name} has it.\n\n` +
    `book ${name}, edition 1, amends ${head.name}` +
    `${head.edition === undefined ? "" : `, edition ${head.edition}`}\n` +
    `    "${(title.trim() || name).replace(/"/g, "''")}"\n`
  );
}
