// Answers as people write them at a panel: each spelling gives the value that it names, and what can be read
// in two ways is refused. The sizes of units are those of NIST SP 811 (2008), appendix B.8.
import { describe, expect, test } from "vitest";
import { evaluationOf, readBook, showJob, workJob } from "../../../../engine/api/book.ts";

const BOOK = readBook(`kind resin-kind
    lay-up-resin "Lay-up resin: wets out mat"
    gel-coat     "Gel coat, brushed"
    filler       "Filler"
    putty        "Filler, fine"
ask length in mm, 0 to 40000, usually 20 to 150
ask inches in inch, 0 to 100
ask area in m2, 0 to 20
ask volume in mL, 0 to 40000
ask mass in g, 0 to 40000
ask stay in min, 0 to 3000
ask air in °C, -20 to 60, usually 15 to 30
ask damp in %, 0 to 100
ask engine in kW, 0 to 300
ask pressure in kPa, 0 to 1000
ask cloth in g/m2, 0 to 2000
ask layers in count, 0 to 40
ask wet of yes-no
ask resin of resin-kind`);

const job = (name: string, answer: string) => evaluationOf(workJob(BOOK, { [name]: answer }));

function si(name: string, answer: string): number {
  const { plan, frame } = job(name, answer);
  return frame.num[plan.registers.byName.get(name)!]!;
}

const says = (name: string, answer: string): readonly string[] =>
  showJob(workJob(BOOK, { [name]: answer })).findings.map((one) => one.says);

const INCH = 0.0254;
const FOOT = 0.3048;
const GALLON = 3.785412e-3;

describe("is read", () => {
  test.each([
    ["length", '3"', 3 * INCH],
    ["length", "3″", 3 * INCH],
    ["length", "3''", 3 * INCH],
    ["length", '1/4"', INCH / 4],
    ["length", '1 1/2"', 1.5 * INCH],
    ["length", '1-1/2"', 1.5 * INCH],
    ["length", "1½", 0.0015],
    ["length", "1½ in.", 1.5 * INCH],
    ["length", "12 in", 12 * INCH],
    ["length", "12in", 12 * INCH],
    ["length", "5' 3\"", 5 * FOOT + 3 * INCH],
    ["length", "5'3 1/2\"", 5 * FOOT + 3.5 * INCH],
    ["length", "5 ft. 3 in.", 5 * FOOT + 3 * INCH],
    ["length", "5 feet 3", 5 * FOOT + 3 * INCH],
    ["length", "5 FT", 5 * FOOT],
    ["length", "80 MM", 0.08],
    ["length", "80 millimetres", 0.08],
    ["length", "3,5", 0.0035],
    ["length", "3,5 cm", 0.035],
    ["length", "1,250.5 mm", 1.2505],
    ["length", "2 yards", 1.8288],
    ["length", "40 thou", 40 * 2.54e-5],
    ["inches", "1-3/8", 1.375 * INCH],
    ["area", "90 sq in", 90 * 6.4516e-4],
    ["area", "14 sq. in.", 14 * 6.4516e-4],
    ["area", "14 in²", 14 * 6.4516e-4],
    ["area", "2 sq ft", 2 * 9.290304e-2],
    ["area", "2 sqft", 2 * 9.290304e-2],
    ["area", "2 square feet", 2 * 9.290304e-2],
    ["area", "400 sq cm", 0.04],
    ["area", "1 sq yd", 8.361274e-1],
    ["volume", "16 fl oz", 16 * 2.957353e-5],
    ["volume", "16 fl. oz.", 16 * 2.957353e-5],
    ["volume", "2 gallons", 2 * GALLON],
    ["volume", "2 quarts", GALLON / 2],
    ["volume", "1 qt", 9.463529e-4],
    ["volume", "1 pint", 4.731765e-4],
    ["volume", "3 cc", 3e-6],
    ["volume", "1 liter", 1e-3],
    ["volume", "2 cu in", 2 * 1.638706e-5],
    ["mass", "2 lbs", 2 * 0.45359237],
    ["mass", "1.5 LB", 1.5 * 0.45359237],
    ["mass", "8 ounces", 8 * 0.028349523],
    ["mass", "2 Kg", 2],
    ["stay", "2 hours", 7200],
    ["stay", "2 hrs", 7200],
    ["stay", "1 h 30", 5400],
    ["stay", "1h30", 5400],
    ["stay", "90 min.", 5400],
    ["stay", "90 minutes", 5400],
    ["stay", "1 day", 86400],
    ["air", "72 F", (72 + 459.67) / 1.8],
    ["air", "72°F", (72 + 459.67) / 1.8],
    ["air", "20 C", 293.15],
    ["air", "20 ºC", 293.15],
    ["air", "68 degF", 293.15],
    ["air", "20 degrees C", 293.15],
    ["air", "-4", 269.15],
    ["air", "−4 °C", 269.15],
    ["damp", "45 percent", 0.45],
    ["damp", "45 pct", 0.45],
    ["damp", "45%", 0.45],
    ["engine", "40 hp", 40 * 745.6999],
    ["engine", "40 HP", 40 * 745.6999],
    ["engine", "3000 W", 3000],
    ["pressure", "14 PSI", 14 * 6894.757],
    ["pressure", "28 in Hg", 28 * 3386.389],
    ["cloth", "10 oz/sq yd", 10 * 0.03390575],
    ["cloth", "10 oz per square yard", 10 * 0.03390575],
  ])("%s %s", (name, answer, value) => {
    expect(si(name, answer)).toBeCloseTo(value, 12 - Math.ceil(Math.log10(value) + 6));
    expect(says(name, answer)).toEqual([]);
  });

  test.each([
    ["length", "80±5", 0.08, 0.005],
    ["length", "80 +/- 5", 0.08, 0.005],
    ["length", "80 ± 5 cm", 0.8, 0.05],
    ["length", "2 in ± 1/8", 2 * INCH, INCH / 8],
    ["length", '2" ± 1/8"', 2 * INCH, INCH / 8],
    ["air", "20 ± 2 °C", 293.15, 2],
    ["air", "68 ± 9 F", 293.15, 5],
    ["air", "20 °C ± 2 °C apart", 293.15, 2],
  ])("%s %s, with its tolerance", (name, answer, value, slack) => {
    const given = job(name, answer).given.get(name)!;
    expect(given).toMatchObject({ is: "value" });
    if (given.is !== "value") return;
    expect(given.value).toBeCloseTo(value, 9);
    expect(given.slack).toBeCloseTo(slack, 9);
  });

  test.each([
    ["wet", "Yes", 1],
    ["wet", "NO", 0],
    ["wet", "y", 1],
    ["resin", "Lay-up resin", 0],
    ["resin", "lay up resin", 0],
    ["resin", "LAY-UP-RESIN", 0],
    ["resin", "Lay-up resin: wets out mat", 0],
    ["resin", "gel coat", 1],
    ["resin", "Filler", 2],
    ["resin", "filler, fine", 3],
  ])("%s %s", (name, answer, value) => expect(si(name, answer)).toBe(value));

  test.each(["unknown", "Unknown", "cannot tell", "can’t tell"])("%s is cannot tell", (answer) => {
    expect(job("damp", answer).given.get("damp")).toEqual({ is: "cannot-tell" });
    expect(job("resin", answer).given.get("resin")).toEqual({ is: "cannot-tell" });
  });
});

describe("is refused", () => {
  test.each([
    ["volume", "1,250", "“1,250” can be read in two ways. Write 1250 or, if a decimal was meant, 1.250."],
    [
      "volume",
      "1,250 mL",
      "“1,250 mL” can be read in two ways. Write 1250 mL or, if a decimal was meant, 1.250 mL.",
    ],
    [
      "length",
      "80 ± 1,250",
      "“80 ± 1,250” can be read in two ways. Write 80 ± 1250 or, if a decimal was meant, 80 ± 1.250.",
    ],
    ["length", "80 kg", "length is a length in mm; “80 kg” is a mass. Write for example 80 mm."],
    ["volume", "16 oz", "volume is a volume in mL; “16 oz” is a mass. Write for example 20000 mL."],
    ["length", "soon", "“soon” cannot be read as an answer to length; write for example 80 mm."],
    ["air", "20 °", "“20 °” cannot be read as an answer to air; write for example 23 °C."],
    [
      "volume",
      "2 quarx",
      "“2 quarx” cannot be read as an answer to volume; write for example 20000 mL. Did you mean 2 quart?",
    ],
    ["length", "1'250", "“1'250” cannot be read as an answer to length; write for example 80 mm."],
    ["length", "5 6", "“5 6” cannot be read as an answer to length; write for example 80 mm."],
    ["length", "1/0", "“1/0” cannot be read as an answer to length; write for example 80 mm."],
    ["layers", "2.5", "layers is a count: a whole number, not 2.5."],
    ["wet", "maybe", "wet is answered yes or no, not “maybe”."],
  ])("%s %s", (name, answer, sentence) => {
    expect(says(name, answer)).toEqual([sentence]);
    expect(si(name, answer)).toBeNaN();
  });

  test.each([
    ["mass", "5 Mg"],
    ["length", "5 Mm"],
    ["pressure", "5 mPa"],
    ["mass", "2 tons"],
    ["volume", "2 imp gal"],
  ])("%s %s: another unit than it looks like", (name, answer) => expect(si(name, answer)).toBeNaN());

  test("a word by a meaning that two words begin with", () => {
    const two = readBook(`kind skin
    smc "Sheet: both faces smooth"
    mat "Sheet: one face rough"
ask face of skin`);
    const view = showJob(workJob(two, { face: "Sheet" }));
    expect(view.state).toBe("impossible");
  });
});

test("a meaning that an edit changes is read as changed", () => {
  const book = (means: string) => `kind skin\n    smc "${means}"\n    mat "Mat"\nask face of skin\n`;
  const before = readBook(book("Sheet"));
  workJob(before, { face: "Sheet" });
  const after = readBook(book("Board"), before);
  expect(showJob(workJob(after, { face: "Board" })).findings).toEqual([]);
  expect(showJob(workJob(after, { face: "Sheet" })).findings).toHaveLength(1);
});
