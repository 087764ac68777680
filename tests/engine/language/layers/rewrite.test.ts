// Trees as they count in a combined book: other names, the rule underneath in place of `as-before`, and what
// is not said again.
import { expect, test } from "vitest";
import { namesBefore, renamed, replacing } from "../../../../engine/language/layers/rewrite.ts";
import { parse } from "../../../support/compose-text.ts";

test("a renamed statement has the new name wherever it names itself, and says what it needs", () => {
  const figure = parse('figure wide in mm = 2 * depth\n    because "{wide} is wide"');
  const other = renamed(figure, "wide@house");
  expect(other.uses).toContain("wide@house");
  expect(other.uses).not.toContain("wide");
  expect(other.needs).toEqual(["depth"]);
});

test("a renamed chart heads its last column by its new name", () => {
  const chart = parse(
    "chart grade by depth gives number\n    depth | grade\n    under 5 mm | 1\n    5 mm and over | 2",
  );
  const { body } = renamed(chart, "grade@house");
  expect(body.keyword === "chart" && body.header.map((cell) => cell.text)).toEqual(["depth", "grade@house"]);
});

test("the same statement and name give the same tree, so that what was checked of it is kept", () => {
  const figure = parse("figure wide in mm = 2 * depth");
  expect(renamed(figure, "a@house")).toBe(renamed(figure, "a@house"));
  expect(renamed(figure, "a@house")).not.toBe(renamed(figure, "b@house"));
});

test("as-before is the rule underneath, also deep inside a rule", () => {
  const own = parse("instead figure wide = largest(as-before, 2 mm) + as-before");
  expect(namesBefore(own)).toBe(true);
  const made = replacing(own, parse("figure wide in mm = depth"), "wide@house");
  expect(made.needs).toContain("wide@house");
  expect(made.needs).not.toContain("as-before");
  expect(namesBefore(made)).toBe(false);
});

test("as-before in a formula is a call with the formula's own parameters", () => {
  const own = parse("instead formula twice(x in mm, y in mm) = as-before + 1 mm");
  const made = replacing(own, parse("formula twice(x in mm, y in mm) = x + y"), "twice@house");
  const { body } = made;
  expect(body.keyword === "formula" && body.rule).toMatchObject({
    is: "binary",
    left: {
      is: "call",
      name: { text: "twice@house" },
      args: [
        { is: "name", name: "x" },
        { is: "name", name: "y" },
      ],
    },
  });
});

test("a condition leaves the rule underneath in force elsewhere", () => {
  const own = parse("instead figure wide = 3 mm when depth > 5 mm");
  const { body, clauses } = replacing(own, parse("figure wide in mm = depth"), "wide@house");
  expect(clauses.when).toBeUndefined();
  expect(body.keyword === "figure" && body.rule).toMatchObject({
    is: "choose",
    cases: [{ when: { is: "binary", op: ">" } }],
    otherwise: { is: "name", name: "wide@house" },
  });
});

test("a unit, a range and a question that are not said again stay as they are underneath", () => {
  const figure = replacing(
    parse("instead figure wide = 3 mm"),
    parse("figure wide in mm = depth"),
    undefined,
  );
  expect(figure.body).toMatchObject({ declared: { in: { text: "mm" } } });
  const under = parse('ask depth in mm, 0 to 10\n    "How deep?"');
  const ask = replacing(parse("instead ask depth in mm, 0 to 5"), under, undefined);
  expect(ask.clauses.title?.pieces).toEqual(["How deep?"]);
  expect(ask.body).toMatchObject({ range: { high: { value: 5 } } });
  const bare = replacing(parse("instead ask depth in mm"), under, undefined);
  expect(bare.body).toMatchObject({ range: { high: { value: 10 } } });
});
