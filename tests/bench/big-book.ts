// A book of 5,000 lines as a large shop would have it: the book of this folder once for each of several bays,
// every bay with its own names. That book is an older edition of the road panels, kept as it was so that
// figures stay comparable. `round` goes into those names, so that each round's text is new to every cache but
// for its kinds, part headings and promises' words.
import { readFileSync } from "node:fs";

/** The first argument of the bench is the checkout. */
export const shippedText = (): string =>
  readFileSync(`${process.argv[2] ?? "."}/tests/bench/road-panels.bevel`, "utf8");

const NAME = /[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*/g;

export function bigBook(round: number, lines = 5000): string {
  const shipped = shippedText();
  const statements = shipped.split(/\n(?=[a-z])/);
  const shared = statements.filter((one) => /^(--|book|kind)/.test(one)).join("\n");
  const own = statements.filter((one) => !/^(--|book|kind|picture)/.test(one));
  const names = new Set(
    own.flatMap(
      (one) =>
        /^(?:ask|dial|figure|formula|chart|list|step|caution|stop|worked) ([A-Za-z][\w-]*)(?: |\(|$)/m.exec(
          one,
        )?.[1] ?? [],
    ),
  );
  let text = shared;
  for (let bay = 1; text.split("\n").length < lines; bay++) {
    text += `\n${own.map((one) => inBay(withoutReady(one), names, `-bay${bay}r${round}`)).join("\n")}`;
  }
  return (
    text.split(/\n(?=[a-z])/).reduce(
      (kept, one) =>
        kept.lines >= lines && !/^part/.test(one)
          ? kept
          : {
              text: `${kept.text}${kept.text ? "\n" : ""}${one}`,
              lines: kept.lines + one.split("\n").length,
            },
      { text: "", lines: 0 },
    ).text + "\n"
  );
}

/**
 * With several bays in one book no example of one bay makes a whole job ready: that word is left out of them.
 */
const withoutReady = (statement: string): string =>
  statement.startsWith("worked") ? statement.replace(/,\s+ready$/m, "") : statement;

/**
 * Every name of the bay's own statements gets the bay behind it; words of kinds, units and the language stay.
 */
function inBay(statement: string, names: ReadonlySet<string>, bay: string): string {
  const keyword = statement.slice(0, statement.indexOf(" "));
  return statement
    .split("\n")
    .map((line, i) => {
      const head = i === 0 ? keyword.length : 0;
      // Names stand in texts only within braces.
      return (
        line.slice(0, head) +
        line
          .slice(head)
          .replace(/"[^"]*"|[^"]+/g, (part) =>
            part.startsWith('"')
              ? part.replace(/\{[^}]*\}/g, (insert) =>
                  insert.replace(NAME, (word) => (names.has(word) ? word + bay : word)),
                )
              : part.replace(/--.*/g, "").replace(NAME, (word) => (names.has(word) ? word + bay : word)),
          )
      );
    })
    .join("\n");
}
