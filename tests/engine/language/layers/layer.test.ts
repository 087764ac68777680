// A layer's statements applied to those of the base: what takes whose place, and where new ones go.
import { expect, test } from "vitest";
import { compose, faultsOf, short } from "../../../support/compose-text.ts";

const HOUSE = `book house, edition 1
ask depth in mm, 0 to 10
dial factor = 2, from 1 to 3
    from practice
figure wide in mm = depth * factor
part "Washing"
step wash "Wash {wide}"
caution wet "Keep it wet" with step wash
part "Ending"
step dry "Dry"
stop deep "Too deep" when depth > 9 mm
promise wide <= 30 mm
promise wide >= 0 mm
`;
const over = (...lines: string[]) =>
  compose(`book yard, edition 1, amends house, edition 1\n${lines.join("\n")}`, HOUSE);
const names = (...lines: string[]) =>
  over(...lines)
    .items.map(short)
    .filter((one) => !/^(book|part|promise|ask)/.test(one));

test("a layer without a line is the base", () => {
  expect(names()).toEqual([
    "dial factor of house",
    "figure wide of house",
    "step wash of house",
    "caution wet of house",
    "step dry of house",
    "stop deep of house",
  ]);
});

test("a figure that replaces one takes its place, and nothing of the other is kept", () => {
  expect(names("instead figure wide = 3 * depth").slice(0, 2)).toEqual([
    "dial factor of house",
    "figure wide of yard, over house",
  ]);
});

test("as-before and a condition keep the figure underneath right before it", () => {
  for (const line of [
    "instead figure wide = as-before + 1 mm",
    "instead figure wide = 3 mm when depth > 5 mm",
  ])
    expect(names(line).slice(1, 3), line).toEqual([
      "figure wide@house of house, hidden as wide",
      "figure wide of yard, over house",
    ]);
});

test("a dial that is turned keeps the one underneath, whose span binds it", () => {
  const { items } = over("instead dial factor = 2.5\n    from practice");
  const dial = items.find((one) => one.from.own && one.statement.name?.text === "factor")!;
  expect(dial.statement.below).toBe("factor@house");
});

test("a line with a condition leaves the one underneath in force where it does not apply", () => {
  const { items } = over('instead step dry "Dry long" when depth > 5 mm');
  const below = items.find((one) => one.from.beneath === "dry")!;
  expect(short(below)).toBe("step dry@house of house, beneath dry");
  expect(below.statement.clauses.when).toMatchObject({ is: "not", of: { is: "name", name: "step dry" } });
});

test("a caution goes with its step under every name that the step has", () => {
  const { items } = over('instead step wash "Wash warm" when depth > 5 mm');
  const wet = items.find((one) => one.statement.name?.text === "wet")!;
  expect(wet.statement.clauses.withSteps?.map((one) => one.text)).toEqual(["wash", "wash@house"]);
});

test("drop empties the place, says where, and takes every promise of one rule", () => {
  const dropped = over("drop promise wide <= 30 mm", "drop step dry");
  expect([...dropped.dropped.keys()]).toEqual(["promise wide <= 30 mm", "step dry", 'step "Dry"']);
  const rest = dropped.items.map((one) => short(one));
  expect(rest).not.toContain("step dry of house");
  expect(rest.filter((one) => one.startsWith("promise"))).toEqual(["promise of house"]);
});

test("what cannot be dropped stays, with its finding", () => {
  expect(faultsOf(over("drop step rinse"))).toEqual(["layer/nothing at drop of yard"]);
  expect(faultsOf(over("drop figure factor"))[0]).toMatch(/^layer\/sort at drop of yard/);
  const twice = over('instead step dry "Dry long"', "drop step dry");
  expect(faultsOf(twice)).toEqual(["layer/drop-own at drop of yard, over yard"]);
  expect(twice.items.map(short)).toContain("step dry of yard, over house");
});

test("a stop or a caution that goes is a finding, and asks for a reason", () => {
  expect(faultsOf(over("drop stop deep"))).toEqual(["layer/because at drop of yard, over house"]);
  expect(faultsOf(over('drop stop deep\n    because "A deeper jig"'))).toEqual([
    "layer/weaker at drop of yard, over house",
  ]);
  expect(faultsOf(over("drop step dry"))).toEqual([]);
});

test("new values go to the front, new lines to the end, and under a heading of the base to that part", () => {
  const order = (...lines: string[]) => names(...lines).filter((one) => /yard|wash|dry/.test(one));
  expect(order('step late "Late"', "figure more = 1")).toEqual([
    "figure more of yard",
    "step wash of house",
    "step dry of house",
    "step late of yard",
  ]);
  expect(order('part "Washing"', 'step rinse "Rinse"')).toEqual([
    "step wash of house",
    "step rinse of yard",
    "step dry of house",
  ]);
});

test("after puts a step behind a step of the base or of the layer, and says where there is none", () => {
  const order = (...lines: string[]) => names(...lines).filter((one) => one.startsWith("step"));
  expect(order('step two "Two" after wash', 'step three "Three" after two')).toEqual([
    "step wash of house",
    "step two of yard",
    "step three of yard",
    "step dry of house",
  ]);
  expect(faultsOf(over('step two "Two" after scrub'))).toEqual(["layer/after at step two of yard"]);
});

test("a third book replaces what the second did: said where it does so without it", () => {
  const yard = "book yard, edition 1, amends house, edition 1\ninstead figure wide = as-before + 1 mm\n";
  const top = (line: string) => compose(`book top, edition 1, amends yard, edition 1\n${line}`, yard, HOUSE);
  expect(faultsOf(top("instead figure wide = 1 mm"))).toEqual([
    "layer/again at figure wide of top, over yard",
  ]);
  const kept = top("instead figure wide = as-before + 2 mm");
  expect(faultsOf(kept)).toEqual([]);
  expect(kept.items.map(short).filter((one) => one.includes("wide"))).toEqual([
    "figure wide@house of house, hidden as wide",
    "figure wide@yard of yard, hidden as wide, over house",
    "figure wide of top, over yard",
  ]);
});

test("without a base, instead, drop and add are findings and the statement counts alone", () => {
  const alone = compose(
    'book alone, edition 1\ninstead step wash "Wash"\ndrop step dry\nchart c add\n    1 | 2',
  );
  expect(faultsOf(alone).map((one) => one.split(" ")[0])).toEqual(["layer/none", "layer/none", "layer/none"]);
});
