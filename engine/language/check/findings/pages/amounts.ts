// What the reference says of the findings about units, types and what may be done with what: the way out, and
// the smallest book that causes each.
import type { FindingPage } from "./page.ts";

const TEMPERATURES = "ask air in °C, 0 to 40\nask surface in °C, 0 to 40\n";

export const AMOUNTS: Readonly<Record<string, FindingPage>> = {
  "unit/unknown": {
    mend: "Use one of the units of the reference, joined tightly: g/m2.",
    smallest: "figure width = 3 mn",
  },
  "unit/mismatch": {
    mend: "Both sides must measure the same thing.",
    smallest: "figure width = 3 mm + 2 kg",
  },
  "unit/bare": {
    mend: "Write the unit behind the number.",
    smallest: "ask depth in mm, 0 to 10\nfigure deep = depth > 6",
  },
  "unit/declared": { mend: "Change the declared unit, or the rule.", smallest: "figure width in mm = 3 kg" },
  "unit/parts": { mend: "Write one unit, or add the two with +.", smallest: "figure dose = 1 kg 20 mL" },
  "money/two": {
    mend: "Turn all money into one currency.",
    smallest:
      "dial wage = 64 EUR/h, from 1 EUR/h to 99 EUR/h\n    from practice\n" +
      "dial cloth = 9 USD, from 1 USD to 99 USD\n    from practice",
  },
  "temperature/point": {
    mend: "Write `apart` behind a difference: `surface - dew-point >= 3 °C apart`.",
    smallest: `${TEMPERATURES}figure warm = surface - air >= 3 °C`,
  },
  "temperature/times": {
    mend: "Multiply a temperature apart, or use absolute(...).",
    smallest: "ask air in °C, 0 to 40\nfigure double = 2 * air",
  },
  "share/basis": {
    mend: "Turn the volume into a mass (or the mass into a volume) with the density of that material.",
    smallest: "ask resin in mL, 10 to 900\nfigure hardener = 2 % by mass of resin",
  },
  "share/times": {
    mend:
      "A share is taken `of` an amount, a length is `run out at` a taper, a first part is " +
      "`paired at` a mix.",
    smallest: "ask resin in g, 10 to 900\nfigure hardener = 2 % by mass * resin",
  },
  "share/number": {
    mend:
      "Declare the figure `in %`; or write the share as a plain number, `0.02` for " +
      "`2 %`. A quotient of two " +
      "masses is a plain share: it has no `by mass`.",
    smallest:
      "ask hardener in g, 1 to 20\nask resin in g, 100 to 900\n" +
      "figure enough of yes-no = hardener / resin >= 2 %",
  },
  "share/wanted": {
    mend: "Write a share such as 15 % or 2 % by mass.",
    smallest: "ask resin in g, 10 to 900\nfigure hardener = 2 of resin",
  },
  "taper/turned": {
    mend: "Write the thickness first.",
    smallest: "dial house-taper = 12:1, from 1:8 to 1:20\n    from practice",
  },
  "number/size": {
    mend: "Write a number that a rule could hold, and nothing over nought.",
    smallest: "figure width = 3/0 mm",
  },
  "mix/zero": {
    mend: "Write the first part to the second: 100:28 by mass.",
    smallest: "dial system = 100:0 by mass\n    from practice",
  },
  "taper/zero": {
    mend: "Write thickness to run: 1:12.",
    smallest: "dial house-taper = 0:12\n    from practice",
  },
  "type/wanted": {
    mend: "Change the rule so that it gives what is wanted there.",
    smallest: 'step grind "Grind" when 3 mm',
  },
  "count/whole": {
    mend: "Round it: `rounded up to whole`.",
    smallest: "ask depth in mm, 0 to 10\nfigure plies in count = depth / 2 mm",
  },
  "round/whole": {
    mend: "Round an amount to a step with its unit.",
    smallest: "ask depth in mm, 0 to 10\nfigure round = depth rounded up to whole",
  },
  "round/step": {
    mend: "Write a step above zero.",
    smallest: "ask depth in mm, 0 to 10\nfigure round = depth rounded up to 0 mm",
  },
  "power/whole": {
    mend: "Write a whole number after ^.",
    smallest: "ask depth in mm, 0 to 10\nfigure odd = depth ^ 1.5",
  },
  "choose/open": {
    mend: "Add an `otherwise`.",
    smallest: "kind duty\n    hull\n    deck\nask use of duty\nfigure bevel = 1:12 if use is hull",
  },
  "list/whole": {
    mend: "Gather the column: `sum of plies.resin`.",
    smallest: "list plies for n from 1 to 3\n    across in mm = n * 10 mm\nfigure wide = plies.across",
  },
  "list/wanted": {
    mend: "Name a list and its column.",
    smallest: "ask depth in mm, 0 to 10\nfigure total = sum of depth.x",
  },
  "list/no-columns": {
    mend: "Write a column below it: `across in mm = n * 10 mm`.",
    smallest: "list plies for n from 1 to 3",
  },
  "list/before": {
    mend: "Name a column of the same list, inside a column's rule.",
    smallest: "list cups for n from 1 to 3\n    size = 50 g\n    more = 0 g if n is 1, otherwise mass before",
  },
  "list/before-first": {
    mend: "Give the first row a value of its own, then the rule for the others.",
    smallest: "list cups for n from 1 to 3\n    size in g = size before + 50 g",
  },
  "list/text": {
    mend: "Keep the number in the column, and write the text in the step or figure that shows it.",
    smallest: 'list cups for n from 1 to 3\n    says = "cup {n}"',
  },
  "list/before-type": {
    mend: "Declare it: `size in g = …`.",
    smallest: "list cups for n from 1 to 3\n    size = size before if n is 2, otherwise size before",
  },
  "steps/what": {
    mend: "Write one of the three.",
    smallest: 'step grind "Grind"\n    takes 5 min\nfigure longest = largest of steps.takes',
  },
  "unit/counted": {
    mend: "Count it in a unit of its own sort: `air counted in °C`.",
    smallest: "ask depth in mm, 0 to 10\nfigure many = depth counted in g",
  },
  "list/column-twice": {
    mend: "Give the column another name.",
    smallest: "list plies for n from 1 to 3\n    n in mm = 10 mm",
  },
};
