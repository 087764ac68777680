// Classes of solvents by evaporation rate against n-butyl acetate = 1: over 3.0 fast, 0.8 to 3.0 medium,
// under 0.8 slow (a published hazard glossary; rates from the same, isopropyl alcohol from memory). Order by
// vapour pressure differs (Perry, 8th ed.).
import { expect, test } from "vitest";
import { bookOf, given } from "./small-book.ts";

const RATES = [
  ["acetone", 5.6],
  ["mek", 3.8],
  ["isopropyl", 1.7],
  ["ethanol", 1.4],
  ["butyl-acetate", 1],
  ["xylene", 0.6],
  ["mineral-spirits", 0.1],
  ["water", 0.3],
] as const;
const book = bookOf(`kind solvent
${RATES.map(([name]) => `    ${name} "${name}"`).join("\n")}
kind pace
    fast "Over 3.0"
    medium "0.8 to 3.0"
    slow "Under 0.8"
ask wipe of solvent
chart rate by wipe gives number
    wipe            | rate
    acetone         | 5.6
    mek             | 3.8
    isopropyl       | 1.7
    ethanol         | 1.4
    butyl-acetate   | 1.0
    xylene          | 0.6
    mineral-spirits | 0.1
    water           | 0.3
    from standard "hazard glossary; isopropyl alcohol from memory"
chart pressure by wipe gives Pa
    wipe            | pressure
    acetone         | 30757
    mek             | 12319
    isopropyl       | 6026
    ethanol         | 7919
    butyl-acetate   | 1493
    xylene          | 1120
    mineral-spirits | 267
    water           | 3173
    from standard "from coefficients of Perry's, 8th edition, at 25 °C; mineral spirits from memory"
chart class by rate gives pace
    rate       | class
    over 3     | fast
    0.8 to 3   | medium
    under 0.8  | slow
    from standard "hazard glossary"
figure may-touch-fibres = class is fast
    because "Common practice, no source: only what flashes off fast may touch bare fibres"
`);
const classOf = (wipe: string) => given(book, { wipe }).word("class");

test("each has its class", () => {
  expect(Object.fromEntries(RATES.map(([name]) => [name, classOf(name)]))).toEqual({
    acetone: "fast",
    mek: "fast",
    isopropyl: "medium",
    ethanol: "medium",
    "butyl-acetate": "medium",
    xylene: "slow",
    "mineral-spirits": "slow",
    water: "slow",
  });
});
test("only acetone and MEK are fast enough for bare fibres", () =>
  expect(
    RATES.map(([name]) => name).filter((wipe) => given(book, { wipe }).word("may-touch-fibres") === "yes"),
  ).toEqual(["acetone", "mek"]));
test("the rates of the seven solvents fall in the published order", () => {
  const rates = RATES.slice(0, 7).map(([wipe]) => given(book, { wipe }).number("rate"));
  expect(rates).toEqual([...rates].sort((a, b) => b - a));
});
test("vapour pressure is a poor stand-in: ethanol is above isopropyl alcohol, its rate below", () => {
  const [ethanol, isopropyl] = ["ethanol", "isopropyl"].map((wipe) => given(book, { wipe }));
  expect(ethanol!.number("pressure")).toBeGreaterThan(isopropyl!.number("pressure"));
  expect(ethanol!.number("rate")).toBeLessThan(isopropyl!.number("rate"));
});
