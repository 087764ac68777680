// A book that stands on another, as a person calls it: found in its own folder or on a shelf, said clearly
// where it is missing, proved as a whole, and asked why across both texts.
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { checkReport, traceReport, workReport } from "../../../core/schemas/report.ts";
import { type Outcome, callIn } from "./support/call.ts";

const PANELS = fileURLToPath(new URL("../../../rulesets/road-panels.bevel", import.meta.url));

const LAYER = `book quay, edition 1, amends road-panels, edition 1
    "An invented yard over the road panels"
instead dial wettest = 70 %
    from practice
instead figure bevel-width in mm = as-before rounded up to 10 mm when flexes
    because "The yard's strip is cut in tens"
step rinse "Rinse the salt off, and dry" after wash
    takes 20 min
drop stop no-reach
    because "The yard's panels have a hatch"
`;
// The examples of the house that this yard decides otherwise.
const ITS_EXAMPLES = `instead worked closed-large-stops "Through the hatch"
    with damage through, longest-side 3 inch, back-open no
    gives waiting
    from practice
`;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "bevelbook-layers-"));
  mkdirSync(join(folder, "shelf"));
  mkdirSync(join(folder, "beside"));
  copyFileSync(PANELS, join(folder, "shelf", "panels.bevel"));
  copyFileSync(PANELS, join(folder, "beside", "any-name.bevel"));
  writeFileSync(join(folder, "quay.bevel"), LAYER + ITS_EXAMPLES);
  writeFileSync(join(folder, "beside", "quay.bevel"), LAYER);
  writeFileSync(join(folder, "beside", "two-lines.bevel"), LAYER.replace(" amends", "\n    amends"));
  writeFileSync(
    join(folder, "job.json"),
    JSON.stringify({ damage: "through", thickness: "3.4 mm", flexes: "yes" }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const call = (...args: readonly string[]): Promise<Outcome> => callIn(folder, args);

test("a book underneath that is nowhere is said clearly, and no card is released", async () => {
  const { code, out } = await call("check", "quay.bevel");
  expect(code).toBe(1);
  expect(out).toContain("The book road-panels, edition 1, which this one amends, is not at hand.");
  const { out: card } = await call("work", "quay.bevel", "--job", "job.json", "--json");
  const worked = workReport.parse(JSON.parse(card));
  expect(worked.state).toBe("impossible");
  expect(worked.bookFindings[0]).toMatchObject({ code: "use/missing", line: 1 });
  expect(await call("check", "quay.bevel", "--shelf", "nowhere")).toEqual({
    code: 2,
    out: "",
    err: "There is no folder nowhere.\n",
  });
});

test("found on a shelf it is checked and proved as a whole", async () => {
  // More time than it needs, so that a busy machine settles it too.
  const time = ["--seconds", "1200"];
  const { code, out } = await call("check", "quay.bevel", "--shelf", "shelf", "--prove", ...time, "--json");
  const report = checkReport.parse(JSON.parse(out));
  expect(report.findings.map((one) => `${one.weight} ${one.code}`)).toEqual(["note layer/weaker"]);
  expect(report.worked.fail).toBe(0);
  expect(report.stands).toEqual([
    { name: "road-panels", edition: 1, fingerprint: expect.stringMatching(/^[0-9a-f]{64}$/) },
  ]);
  expect(
    report.standing?.holds,
    JSON.stringify(report.standing?.goals.filter((goal) => goal.verdict !== "proved")),
  ).toBe(true);
  // A stop that is dropped stays in sight, and what is worth a note does not fail the check.
  expect(code).toBe(0);
}, 600_000);

test("an example underneath that now fails is reported at the line that makes it fail", async () => {
  const { code, out } = await call("check", join("beside", "quay.bevel"));
  expect(code).toBe(1);
  expect(out).toMatch(/line 9: error worked\/fails\n {4}drop stop no-reach/);
  expect(out).toMatch(/In road-panels: .*closed-large-stops/);
  expect(out).toMatch(/line \d+ of road-panels, edition 1: here in road-panels/);
});

test("found as well where the head names it on a second line", async () => {
  const { out } = await call("check", join("beside", "two-lines.bevel"));
  expect(out).toMatch(/line 10: error worked\/fails\n {4}drop stop no-reach/);
});

test("why goes through both texts and names the book of each rule", async () => {
  const { out } = await call(
    "why",
    "quay.bevel",
    "bevel-width",
    "--job",
    "job.json",
    "--shelf",
    "shelf",
    "--json",
  );
  const { steps } = traceReport.parse(JSON.parse(out));
  expect(steps[0]).toMatchObject({
    name: "bevel-width",
    value: "50 mm",
    layer: "quay",
    decided: "since flexes",
  });
  expect(steps.find((step, i) => i > 0 && step.name === "bevel-width")).toMatchObject({
    value: "45 mm",
    layer: "road-panels",
    id: "figure bevel-width",
  });
  const text = await call("why", "quay.bevel", "bevel-width", "--job", "job.json", "--shelf", "shelf");
  expect(text.out).toContain("because The yard's strip is cut in tens");
  expect(text.out).toContain("(road-panels)");
});

test("an error of the base book is named by check and work, apart from a stopped job", async () => {
  const house = "book house, edition 1\nask size in mm, 1 to 900\nfigure wide in mm = sise\n";
  const stop = 'stop large "Too large" when size > 300 mm\nstep seal "Seal {wide}"\n';
  writeFileSync(join(folder, "house.bevel"), house + stop);
  writeFileSync(
    join(folder, "faulty.bevel"),
    'book yard, edition 1, amends house, edition 1\nstep rinse "Rinse"\n',
  );
  writeFileSync(join(folder, "large.json"), '{"size": "400 mm"}');
  const says = "house, edition 1 underneath has an error: Nothing here is called sise. Did you mean size?";
  const checked = await call("check", "faulty.bevel");
  expect(checked).toMatchObject({ code: 1, out: expect.stringContaining("error use/faulty") });
  expect(checked.out).toContain(says);
  expect(checked.out).toContain("line 3 of house, edition 1: Nothing here is called sise.");
  const worked = await call("work", "faulty.bevel", "--job", "large.json");
  expect(worked).toMatchObject({ code: 3, out: expect.stringContaining("This job is stopped.") });
  expect(worked.out).toContain(
    `yard has errors: mend them before this card is used (bevelbook check).\n  line 1: ${says}`,
  );
  const data = await call("work", "faulty.bevel", "--job", "large.json", "--json");
  expect(data.code).toBe(3);
  expect(workReport.strict().parse(JSON.parse(data.out))).toMatchObject({
    state: "stopped",
    bookFindings: [{ code: "use/faulty", weight: "error", line: 1, says }],
  });
  expect((await call("why", "faulty.bevel", "large", "--job", "large.json")).code).toBe(3);
  writeFileSync(join(folder, "house.bevel"), (house + stop).replace("sise", "size"));
  const sound = await call("work", "faulty.bevel", "--job", "large.json", "--json");
  expect(sound.code).toBe(0);
  expect(workReport.parse(JSON.parse(sound.out))).toMatchObject({ state: "stopped", bookFindings: [] });
});
