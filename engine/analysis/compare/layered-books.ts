// Books that stand on others, made ready to be weighed. A layer is held against the book underneath as
// against itself with nothing said: so each own statement can be made alone. What differs underneath is one
// change of its own.
import type { RuleChangeView } from "../../../core/view.ts";
import type { CheckedBook, Entry } from "../../language/check/book.ts";
import { type Group, groupsOf } from "./groups.ts";
import { ownStatements, ownWith } from "./own-statements.ts";
import { ruleChanges } from "./rules.ts";

export interface LayeredSide {
  readonly checked: CheckedBook;
  readonly text: string;
  /** The texts that it may stand on. */
  readonly shelf: readonly string[];
}

/**
 * Entries that a reader knows: not what is kept only as the value underneath, and not the words that leave
 * something out.
 */
const seenEntries = (checked: CheckedBook): readonly Entry[] =>
  checked.composition === undefined
    ? checked.entries
    : checked.entries.filter(
        ({ from, statement }) =>
          from?.hidden === undefined &&
          from?.beneath === undefined &&
          statement.body.keyword !== "drop" &&
          statement.body.keyword !== "use",
      );

/** Whether both amend a book of the same name, so that own statements of the one can stand in the other. */
const amended = ({ checked }: LayeredSide): string | undefined =>
  checked.composition?.under.find((one) => one.as === "amended")?.name;

export interface LayeredPair {
  readonly changes: readonly RuleChangeView[];
  readonly groups: readonly Group[];
  /** The first book with these changes made: its text, and what it stands on. */
  readonly madeOf: (done: readonly RuleChangeView[]) => {
    readonly text: string;
    readonly shelf: readonly string[];
  };
}

/** The layer with nothing said: its head alone, on this book. */
export function headAlone(
  layer: LayeredSide,
  base: { readonly name: string; readonly text: string },
): { readonly text: string; readonly shelf: readonly string[] } | undefined {
  if (amended(layer) !== base.name || base.name === "") return undefined;
  const head = layer.checked.entries.find(
    (entry) => entry.statement.body.keyword === "book" && entry.from?.own !== false,
  );
  if (head === undefined) return undefined;
  return {
    text: `${layer.text.slice(head.piece.at.start, head.piece.at.end)}\n`,
    shelf: [base.text, ...layer.shelf.filter((text) => text !== base.text && !isNamed(text, base.name))],
  };
}

const isNamed = (text: string, name: string): boolean =>
  new RegExp(`^book[ \\t]+${name}(?![\\w-])`, "m").test(text);

/**
 * What two books write otherwise where at least one stands on others, and how the changes are made one at a
 * time.
 */
export function layeredPair(before: LayeredSide, after: LayeredSide): LayeredPair {
  const [old, fresh] = [seenEntries(before.checked), seenEntries(after.checked)];
  const changes = ruleChanges(old, fresh);
  const [oldOwn, freshOwn] = [
    ownStatements(before.text, before.checked.entries, fresh),
    ownStatements(after.text, after.checked.entries, old),
  ];
  const said = new Set([...oldOwn, ...freshOwn].map((one) => one.id));
  // Own statements of one can only stand in the other where both stand on books of the same names.
  if (amended(before) !== amended(after)) {
    const whole = { text: after.text, shelf: after.shelf };
    return {
      changes,
      groups: changes.length === 0 ? [] : [{ changes }],
      madeOf: (done) => (done.length > 0 ? whole : { text: before.text, shelf: before.shelf }),
    };
  }
  const mine = changes.filter((change) => said.has(change.id));
  const theirs = changes.filter((change) => !said.has(change.id));
  const groups = [...groupsOf(mine, old, fresh), ...(theirs.length > 0 ? [{ changes: theirs }] : [])];
  return {
    changes,
    groups,
    madeOf: (done) => ({
      text: ownWith(oldOwn, freshOwn, new Set(done.map((change) => change.id))),
      shelf: theirs.length === 0 || done.includes(theirs[0]!) ? after.shelf : before.shelf,
    }),
  };
}
