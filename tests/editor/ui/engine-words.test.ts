// What the engine says, in both languages: English as the engine wrote it, Spanish without any English left,
// for every code and over the reasons, close calls and open decisions of the shipped book's worked examples.
import "../../../editor/ui/words/all-words.ts";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { reasonText } from "../../../core/reason-words.ts";
import { readBook, showJob, sensitivityOfJob, why, workJob } from "../../../engine/index.ts";
import {
  decidedWords,
  flipWords,
  reasonWords,
  shownText,
  traceValue,
  turnWords,
} from "../../../editor/ui/words/engine-words.ts";
import { english, wordsIn } from "../../../editor/ui/words/words.ts";
import { whySentence } from "../../../editor/ui/parts/why-sentence.ts";
import { DECISIONS, REASONS, examplesOf } from "../../support/reasons.ts";

const spanish = wordsIn("es");
const ENGLISH =
  /\b(the|it|its|is|has|not|no longer|row|rows|answered|since|of|waits|becomes|applies|holds)\b/;
const book = readBook(
  readFileSync(fileURLToPath(new URL("../../../rulesets/road-panels.bevel", import.meta.url)), "utf8"),
);
const jobs = book.worked.slice(0, 6).map((one) => workJob(book, one.answers));

describe("every reason", () => {
  it.each(examplesOf(REASONS))("in Spanish: %s", (text, reason) => {
    const words = reasonWords(reason, text, spanish);
    expect(words).not.toBe(text);
    expect(words).not.toMatch(ENGLISH);
    expect(words).not.toMatch(/[“”"]|undefined|\[object/);
    expect(words.endsWith("."), "a sentence where English has one").toBe(/[.?]$/.test(text));
  });
  it("is the engine's sentence in English", () => {
    for (const [text, reason] of examplesOf(REASONS)) expect(reasonWords(reason, text, english)).toBe(text);
  });
  it("keeps its sentence where there are no facts", () =>
    expect(reasonWords(undefined, "it has no value", spanish)).toBe("it has no value"));
});

describe("every decision", () => {
  it.each(examplesOf(DECISIONS))("in Spanish: %s", (text, decision) => {
    const words = decidedWords({ decided: text, decidedBy: [decision] }, spanish);
    expect(words).not.toBe(text);
    expect(words.replace("wet is yes", "")).not.toMatch(ENGLISH);
    expect(words).not.toMatch(/[“”"]|undefined|\[object/);
  });
  it("says yes and no as a person answers", () => {
    const step = { decided: "answered yes", decidedBy: [{ code: "answered", answer: "yes" }] } as const;
    expect(decidedWords(step, spanish)).toBe("contestado sí");
    expect(decidedWords(step, english)).toBe("answered yes");
  });
});

describe("traces", () => {
  const steps = [...jobs, workJob(book, {}), workJob(book, { edge: "glass-fibre" })].flatMap((job) =>
    showJob(job).values.flatMap((value) => why(job, value.name, "deciding")?.steps ?? []),
  );
  it("are many", () => {
    expect(new Set(steps.map((step) => step.decided)).size).toBeGreaterThan(20);
  });
  it("stay as they are in English", () => {
    for (const step of steps) {
      expect(decidedWords(step, english)).toBe(step.decided);
      expect(traceValue(step, english)).toBe(step.value);
    }
  });
  it("are said in Spanish where they are not the book's own words", () => {
    for (const step of steps) {
      if (step.decided !== "") expect(decidedWords(step, spanish)).not.toBe(step.decided);
      // A line is said by whether it applies, and its text is the book's own.
      if (step.state !== "known" && step.line === undefined)
        expect(traceValue(step, spanish)).not.toBe(step.value);
    }
  });
  it("leave no English beginning in a Spanish sentence", () => {
    for (const job of jobs)
      for (const value of showJob(job).values) {
        const [first] = why(job, value.name, "deciding")?.steps ?? [];
        if (first)
          expect(whySentence(first, spanish)).not.toMatch(
            /\b(since|because|as answered|set by the house|row \d|waits for)\b/,
          );
      }
  });
});

describe("close calls and open decisions", () => {
  const flips = jobs.slice(0, 3).flatMap((job) => sensitivityOfJob(job));
  it("are the engine's sentences in English", () => {
    expect(flips.length).toBeGreaterThan(10);
    for (const flip of flips) {
      expect(flipWords(flip, english)).toBe(flip.says);
      expect(flip.turned.map((turn) => turnWords(turn, english))).toEqual(flip.turns);
    }
  });
  it("have every turn said in Spanish", () => {
    for (const turn of flips.flatMap((flip) => flip.turned))
      expect(turnWords(turn, spanish)).not.toMatch(
        /\b(becomes|applies|holds|no longer|has no value|step|stop|caution)\b/,
      );
  });
});

describe("answers that cannot be used", () => {
  const wrong: Readonly<Record<string, string>> = {
    thickness: "900 mm",
    air: "20 kg",
    use: "boat",
    flexes: "perhaps",
    depth: "thick",
    panel: "20 °C ± x",
  };
  const view = showJob(workJob(book, wrong));
  it("come with their facts, each in its own sentence", () => {
    expect(view.findings.map((one) => one.ask).sort()).toEqual(Object.keys(wrong).sort());
    for (const { cause, says } of view.findings) {
      expect(reasonText(cause)).toBe(says);
      expect(reasonWords(cause, says, spanish)).not.toBe(says);
    }
  });
  it("a value that waits says for what", () => {
    const waits = view.values.find(
      (value) => value.state === "unknown" && (value.waitsFor?.length ?? 0) > 0,
    )!;
    expect(shownText(waits, english)).toBe(waits.text);
    expect(shownText(waits, spanish)).toBe(`falta ${waits.waitsFor!.join(", ")}`);
  });
});
