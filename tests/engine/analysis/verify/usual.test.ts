// What is usual of an ask: jobs that are made up keep to it first; what is proved covers the possible.
import { expect, test } from "vitest";
import { madeUpJobs } from "../../../../engine/analysis/compare/made-up-jobs.ts";
import { readBook } from "../../../../engine/index.ts";
import { planOf } from "../support/box-law.ts";
import { brokenBy, promises, sound } from "../support/standing.ts";

const KIND = `kind skin-kind
    smc       "Moulded sheet"
    hand-laid "Hand-laid"
    pulled    "Pulled through a die"
`;

const book = (rule: string, usual: { readonly damp: string; readonly skin: string }) =>
  sound(`book shown, edition 1
    "Shown"
${KIND}
ask damp in %, 5 to 100${usual.damp}
    "Humidity"
ask skin of skin-kind${usual.skin}
    "Skin"
step look "Look"
    from practice
promise ${rule}
`);

const USUAL = { damp: ", usually 35 to 75", skin: ", usually hand-laid, pulled" };

test("the job that breaks a promise is a usual one where a usual one breaks it", () => {
  const broken = book("damp < 40 % or damp > 90 % or skin is smc and damp < 45 %", USUAL);
  const [promise] = promises(broken);
  expect(promise!.verdict).toBe("broken");
  const damp = Number(promise!.job!.damp!.replace(" %", ""));
  expect(damp).toBeGreaterThanOrEqual(40);
  expect(damp).toBeLessThanOrEqual(75);
  expect(["hand-laid", "pulled"]).toContain(promise!.job!.skin);
  expect(brokenBy(broken, promise!.job!, promise!.id)).toBe(true);
});

test("what holds for the usual alone is not proved", () => {
  const [promise] = promises(book("damp <= 98 % or skin is not smc", USUAL));
  expect(promise!.verdict).toBe("broken");
  expect(promise!.job).toMatchObject({ skin: "smc" });
});

test("most of a spread is usual, and some of it is not", () => {
  const usual = book("damp > 0 %", USUAL);
  const { jobs } = madeUpJobs([planOf(usual)], 300, 1, []);
  const damps = jobs.map((job) => Number(job.damp!.replace(" %", "")));
  const within = damps.filter((damp) => damp >= 35 && damp <= 75).length / jobs.length;
  expect(within).toBeGreaterThan(0.7);
  expect(within).toBeLessThan(0.97);
  const smc = jobs.filter((job) => job.skin === "smc").length / jobs.length;
  expect(smc).toBeGreaterThan(0.01);
  expect(smc).toBeLessThan(0.2);
});

test("an answer that is possible and unusual is an answer", () => {
  expect(book("damp > 0 %", USUAL).asks[0]!.answer).toMatchObject({
    low: "5 %",
    high: "100 %",
    usual: { low: "35 %", high: "75 %" },
  });
});

test("a layer keeps what is usual, unless it says more or changes the range", () => {
  const under =
    'book house, edition 1\n    "House"\nask damp in %, 5 to 100, usually 35 to 75\n    "Humidity"\n';
  const usual = (ask: string) => {
    const book = readBook(
      `book yard, edition 1, amends house, edition 1\n    "Yard"\ninstead ask damp${ask}\n    "Damp"\n`,
      undefined,
      [under],
    );
    expect(book.findings.filter((one) => one.weight === "error")).toEqual([]);
    const { answer } = book.asks[0]!;
    return answer.is === "quantity" ? answer.usual : undefined;
  };
  expect(usual("")).toEqual({ low: "35 %", high: "75 %" });
  expect(usual(", usually 50 to 60")).toEqual({ low: "50 %", high: "60 %" });
  expect(usual(" in %, 0 to 100")).toBeUndefined();
});
