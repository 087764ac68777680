// The job that is shown for a broken promise: read exactly as it is printed, it breaks the promise; no finer
// than anybody measures, and as plain as the break allows.
import { expect, test } from "vitest";
import { chance } from "../../../support/chance.ts";
import { brokenBy, promises, sound } from "../support/standing.ts";

const book = (asks: string, rule: string, more = "") =>
  sound(`book shown, edition 1
    "Shown"
${asks}
step look "Look"
    from practice
promise ${rule}
${more}`);

test("half-inch: a number beside a fraction is not printed as the fraction", () => {
  const half = book(`ask thick in inch, 0 to 2\n    "Thick"`, "thick <= 1/2 inch or thick >= 0.5000001 inch");
  const [promise] = promises(half);
  // All that breaks it is finer than seven digits, and the fraction itself does not.
  expect(promise!.verdict).toBe("broken");
  expect(promise!.job!.thick).not.toBe("1/2 inch");
  expect(brokenBy(half, promise!.job!, promise!.id), JSON.stringify(promise!.job)).toBe(true);
});

test("no-such-number: what only a number shows that nobody types is not called broken", () => {
  const tiny = book(
    `ask x in mm, 1 to 10\n    "x"\nask y in mm, 0 to 10\n    "y"`,
    "y is 0 mm or x / y * y is x",
  );
  expect(promises(tiny)[0]!.verdict).not.toBe("broken");
});

test("hot-day: what the break does not rest on is as in the worked example", () => {
  const hot = book(
    `ask area in m2, 0.01 to 1000
    "Area"
ask layers in count, 1 to 500
    "Layers"
ask air in °C, -10 to 50
    "Air"
    measured to 1 °C apart`,
    "air <= 40 °C or area <= 1 m2 or layers > 400",
    `worked usual "As it comes"
    with area 2 m2, layers 3, air 20 °C
    gives step look
`,
  );
  const [promise] = promises(hot);
  expect(promise!.job).toMatchObject({ area: "2 m2", layers: "3" });
  const air = Number(promise!.job!.air!.split(" ")[0]);
  expect(air).toBeGreaterThan(40);
  expect(air).toBe(Math.round(air));
});

test("every witness of random limits breaks its promise as it is printed", () => {
  const by = chance(7);
  for (let i = 0; i < 40; i++) {
    const unit = by.pick(["mm", "inch", "cm", "ft"]);
    const limit = Number((1 + 8 * by.next()).toPrecision(1 + by.whole(8)));
    const width = by.pick([1, 0.01, 0.0001, 0.000002]);
    const one = book(
      `ask x in ${unit}, 0 to 10\n    "x"${by.odds(0.3) ? `\n    measured to 0.5 ${unit}` : ""}`,
      `x <= ${limit} ${unit} or x > ${Number((limit + width).toPrecision(12))} ${unit}`,
    );
    const [promise] = promises(one);
    if (promise!.verdict === "broken")
      expect(brokenBy(one, promise!.job!, promise!.id), JSON.stringify([limit, promise!.job])).toBe(true);
    else expect(promise!.verdict).toBe("not settled");
  }
});

test("what comes out in the job that breaks it is said as a value, or as why there is none", () => {
  const gives = (figure: string, promise: string): string | undefined =>
    promises(book(`ask x in mm, 0 to 10\n    "x"\nfigure y = ${figure}`, promise))[0]!.gives;
  expect(gives("x / 1 mm", "y <= 5")).toMatch(/^y is \S+$/);
  expect(gives("1 mm / x", "y >= 0")).toMatch(/^y has no value: .*divi/);
});
