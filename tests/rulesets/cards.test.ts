// The cards of the boat book's whole jobs as text, as a technician reads them, held against cards/*.txt. The files are written
// by `npx vitest run tests/rulesets/cards.test.ts -u` and read by a person before they are kept: a card that changes shows here what changed.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { JobView } from "../../core/view.ts";
import { readBook, showJob, workJob } from "../../engine/index.ts";

const TITLE = "Worked examples: whole jobs";
const text = readFileSync(new URL("../../rulesets/small-craft.bevel", import.meta.url), "utf8");
const sums = readFileSync(new URL("../../rulesets/common-sums.bevel", import.meta.url), "utf8");
const book = readBook(text, undefined, [sums]);
const part = text.slice(text.indexOf(`part "${TITLE}"`)).split(/^part /m)[1]!;
const names = [...part.matchAll(/^worked (\S+)/gm)].map((found) => found[1]!);

function cardOf(title: string, view: JobView): string {
  const time = (step: JobView["steps"][number]) => (step.takes === undefined && step.waits === undefined ? "" : ` (${[step.takes, step.waits === undefined ? undefined : `then wait ${step.waits}`].filter((one) => one !== undefined).join(", ")})`);
  return [title, `This job is ${view.state}.`, "", ...view.stops.map((one) => `STOP ${one.text}`), ...view.cautions.map((one) => `! ${one.text}`), "", ...view.steps.map((step, i) => `${i + 1}. ${step.text}${time(step)}`), ""].join("\n");
}

describe("whole jobs on small craft", () => {
  test("are there, the hull of 6 mm in a shed of 14 °C with and without a heater among them", () => {
    expect(names).toEqual(expect.arrayContaining(["hull-6mm-14C", "hull-6mm-14C-no-heat", "deck-wet-balsa", "topside-from-inside", "chip-cold", "blister-plies"]));
  });
  for (const name of names) test(name, async () => {
    const worked = book.worked.find((one) => one.name === name)!;
    const view = showJob(workJob(book, worked.answers));
    expect(view.state).toBe("ready");
    await expect(cardOf(worked.title, view)).toMatchFileSnapshot(`cards/${name}.txt`);
  });
});
