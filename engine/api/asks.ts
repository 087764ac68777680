// The questions of a book and its kinds, as pages show them.
import { writeValue } from "../../core/format.ts";
import type { Type } from "../../core/type.ts";
import type { Unit } from "../../core/unit.ts";
import type { AskView, KindView } from "../../core/view.ts";
import type { CheckedBook, Entry } from "../language/check/book.ts";
import type { Fallback } from "../language/syntax/tree.ts";
import { plainText, plainTitle, sourceOf } from "./statement-words.ts";

export function kindsOf(checked: CheckedBook): readonly KindView[] {
  return checked.entries.flatMap(({ statement: { body, name } }) =>
    body.keyword === "kind" && name
      ? [
          {
            name: name.text,
            words: body.words.map((one) => ({ word: one.word, means: plainText(one.means) })),
          },
        ]
      : [],
  );
}

export function asksOf(checked: CheckedBook): readonly AskView[] {
  let part = "";
  return checked.entries.flatMap((entry) => {
    if (entry.statement.body.keyword === "part") part = plainTitle(entry);
    return askOf(checked, entry, part) ?? [];
  });
}

function askOf(checked: CheckedBook, entry: Entry, part: string): AskView | undefined {
  const { statement } = entry;
  const { signature, ask } = entry.checked;
  if (
    statement.body.keyword !== "ask" ||
    signature === undefined ||
    ask === undefined ||
    statement.name === undefined
  )
    return undefined;
  if (checked.entries[checked.byName.get(statement.name.text)!] !== entry) return undefined;
  const { type, unit } = signature;
  const { ifUnknown, ifBlank } = statement.clauses;
  const taken = (fallback: Fallback) => ({
    take: sourceOf(entry, fallback.take.at),
    ...(fallback.because ? { because: plainText(fallback.because) } : {}),
  });
  const answer = answerForm(checked, ask, type, unit);
  if (answer === undefined) return undefined;
  return {
    name: statement.name.text,
    question: plainTitle(entry) || statement.name.text,
    part,
    answer,
    ...(ask.drawn ? { drawn: ask.drawn } : {}),
    ...(ifUnknown ? { ifUnknown: taken(ifUnknown) } : {}),
    ...(ifBlank ? { ifBlank: taken(ifBlank) } : {}),
  };
}

type CheckedAsk = NonNullable<Entry["checked"]["ask"]>;

/** What can be answered; undefined where the type is not known. */
function answerForm(
  checked: CheckedBook,
  { low, high, resolution, usual }: CheckedAsk,
  type: Type,
  unit: Unit | undefined,
): AskView["answer"] | undefined {
  if (type.is === "kind")
    return { is: "kind", kind: type.kind, words: meaningsOf(checked, type.kind, type.words) };
  if (type.is === "yes-no") return { is: "yes-no" };
  if (type.is === "anything") return undefined;
  // A resolution is a difference, and a temperature's zero does not count in it.
  const resolutionText = (of: number) =>
    type.is === "temperature"
      ? `${Math.round((of / (unit?.factor ?? 1)) * 1e6) / 1e6} ${unit?.symbol ?? ""}`
      : writeValue(of, type, unit);
  return {
    is: "quantity",
    unit: unit?.symbol ?? "",
    low: writeValue(low, type, unit),
    high: writeValue(high, type, unit),
    ...(usual
      ? { usual: { low: writeValue(usual.low, type, unit), high: writeValue(usual.high, type, unit) } }
      : {}),
    ...(resolution !== undefined ? { resolution: resolutionText(resolution) } : {}),
  };
}

function meaningsOf(
  checked: CheckedBook,
  kind: string,
  words: readonly string[],
): readonly { readonly word: string; readonly means: string }[] {
  const at = checked.byName.get(`kind ${kind}`);
  const body = at === undefined ? undefined : checked.entries[at]!.statement.body;
  const means = new Map(
    body?.keyword === "kind" ? [...body.words].reverse().map((one) => [one.word, one.means] as const) : [],
  );
  return words.map((word) => ({ word, means: plainText(means.get(word)) }));
}
