// Small pure parts of the card and of the page: answers, ticks, the line of the state, keys, what a sign-off
// needs.
import "../../../editor/ui/words/all-words.ts";
import { describe, expect, it } from "vitest";
import type { CardLine, JobView } from "../../../core/view.ts";
import { withAnswer } from "../../../editor/card/answers.ts";
import { editionText, stackOn } from "../../../editor/card/book-stack.ts";
import { withTick } from "../../../editor/card/card-facts.ts";
import { stateLine } from "../../../editor/card/state-line.ts";
import { missingIn } from "../../../editor/technician/record/sign-off.tsx";
import { withKeys } from "../../../editor/ui/parts/text-keys.ts";
import { english } from "../../../editor/ui/words/words.ts";

const job = (more: Partial<JobView>): JobView =>
  ({
    state: "waiting",
    values: [],
    stops: [],
    cautions: [],
    steps: [],
    waiting: [],
    findings: [],
    ...more,
  }) as unknown as JobView;
const step = (text: string, takes?: number): CardLine => ({
  id: text,
  text,
  pieces: [],
  ...(takes === undefined ? {} : { minutes: { takes, waits: 0 } }),
});

describe("answers", () => {
  it("are added, replaced and taken back without touching the others", () => {
    const one = withAnswer({}, "a", "1 mm");
    expect(withAnswer(one, "b", "yes")).toEqual({ a: "1 mm", b: "yes" });
    expect(withAnswer(one, "a", "2 mm")).toEqual({ a: "2 mm" });
    expect(withAnswer(one, "a", undefined)).toEqual({});
    expect(withAnswer(one, "a", "")).toEqual({});
    expect(one).toEqual({ a: "1 mm" });
  });
});

describe("ticks", () => {
  it("hold the words that were ticked, and are taken away", () => {
    const ticked = withTick({}, step("Sand it."), true);
    expect(ticked).toEqual({ "Sand it.": "Sand it." });
    expect(withTick(ticked, step("Sand it."), false)).toEqual({});
  });
});

describe("the line of the state", () => {
  it("puts answers that cannot be used before what is waited for, but never before a stop", () => {
    const findings = [{ ask: "a" }] as unknown as JobView["findings"];
    expect(stateLine(job({ findings }), 3, english)).toBe(english("state.unusable.one"));
    expect(stateLine(job({ state: "stopped", findings }), 0, english)).toBe(english("state.withheld"));
  });
  it("counts the questions left, and the work of a released job", () => {
    expect(stateLine(job({}), 0, english)).toBe(english("state.for-an-answer"));
    expect(stateLine(job({}), 1, english)).toBe(english("state.for.one"));
    expect(stateLine(job({}), 2, english)).toBe(english("state.for", { count: 2 }));
    expect(stateLine(job({ state: "ready", steps: [step("a", 20), step("b", 15)] }), 0, english)).toBe(
      "2 steps, 35 min of work",
    );
    expect(stateLine(job({ state: "ready", steps: [step("a")] }), 0, english)).toBe("1 step");
  });
});

describe("the books behind a layer", () => {
  it("are named in their order, with an edition where they have one", () => {
    expect(stackOn(undefined, english)).toBe("");
    expect(
      stackOn(
        [
          { name: "road", edition: 3 },
          { name: "sums", edition: undefined },
        ],
        english,
      ),
    ).toBe(", on road, edition 3, on sums");
    expect(editionText({ name: "sums", edition: undefined }, english)).toBe("sums");
  });
});

describe("keys of texts", () => {
  it("differ for texts that are alike", () => {
    expect(withKeys(["a", "b", "a", "a"]).map(([key]) => key)).toEqual(["a", "b", "a 2", "a 3"]);
  });
});

describe("a sign-off", () => {
  it("needs a name, and a note where something is still open", () => {
    expect(missingIn(" ", "", false)).toBe("record.sign-needs-name");
    expect(missingIn("Ana", " ", true)).toBe("record.sign-needs-note");
    expect(missingIn("Ana", "", false)).toBeUndefined();
    expect(missingIn("Ana", "cures overnight", true)).toBeUndefined();
  });
});
