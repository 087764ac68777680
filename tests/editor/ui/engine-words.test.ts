// What the engine says in English is said again by the catalogue: unchanged in English, and without English
// left in Spanish, over every reason, close call and open decision of the shipped book's worked examples.
import "../../../editor/ui/words/all-words.ts";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import {
  toleranceEffectsOf,
  readBook,
  showJob,
  sensitivityOfJob,
  why,
  workJob,
} from "../../../engine/index.ts";
import {
  doubtWords,
  faultWords,
  flipWords,
  phrase,
  shownText,
  turnWords,
} from "../../../editor/ui/words/engine-words.ts";
import { english, wordsIn } from "../../../editor/ui/words/words.ts";
import { whySentence } from "../../../editor/ui/parts/why-sentence.ts";

const spanish = wordsIn("es");
const book = readBook(
  readFileSync(fileURLToPath(new URL("../../../rulesets/road-panels.bevel", import.meta.url)), "utf8"),
);
const jobs = book.worked.slice(0, 6).map((one) => workJob(book, one.answers));

describe("reasons", () => {
  const phrases = new Set<string>();
  for (const job of [...jobs, workJob(book, {}), workJob(book, { edge: "glass-fibre" })]) {
    for (const value of showJob(job).values)
      for (const step of why(job, value.name, "deciding")?.steps ?? []) {
        if (step.decided !== "") phrases.add(step.decided);
        if (step.state !== "known") phrases.add(step.value);
      }
  }
  it("are many", () => {
    expect(phrases.size).toBeGreaterThan(20);
  });
  it("stay as they are in English", () => {
    for (const one of phrases) expect(phrase(one, english)).toBe(one);
  });
  it("are said in Spanish in every form that the shipped book's jobs meet", () => {
    const left = [...phrases].filter((one) => phrase(one, spanish) === one);
    expect(left).toEqual([]);
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
  it("are made anew word by word in English", () => {
    expect(flips.length).toBeGreaterThan(10);
    for (const flip of flips) expect(flipWords(flip, english)).toBe(flip.says);
  });
  it("have every turn said in Spanish", () => {
    for (const turn of flips.flatMap((flip) => flip.turns))
      expect(turnWords(turn, spanish)).not.toMatch(
        /\b(becomes|applies|holds|no longer|has no value|step|stop|caution)\b/,
      );
  });
  it("say what a tolerance leaves open", () => {
    const worked = book.worked.find((one) => one.answers["longest-side"] !== undefined)!;
    const open =
      toleranceEffectsOf(workJob(book, { ...worked.answers, "longest-side": "40 mm ± 30 mm" }))?.open ?? [];
    expect(open.length).toBeGreaterThan(0);
    for (const one of open)
      expect(doubtWords(one.says, spanish)).toMatch(
        /^Si (el|la|los|las)? ?.*cambia dentro de la tolerancia\.$|puede ser .* dentro de la tolerancia\.$/,
      );
    expect(doubtWords("method may be fill or layup within the tolerance: measure again", spanish)).toBe(
      "method puede ser fill o layup dentro de la tolerancia.",
    );
    expect(doubtWords("method may be fill or layup within the tolerance: measure again", english)).toBe(
      "method may be fill or layup within the tolerance.",
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
  it("are told by their code, each in its own sentence", () => {
    expect(view.findings.map((one) => one.ask).sort()).toEqual(Object.keys(wrong).sort());
    for (const finding of view.findings) {
      const ask = book.asks.find((one) => one.name === finding.ask);
      expect(faultWords(finding, ask, wrong[finding.ask]!, english)).toBe(finding.says);
      expect(faultWords(finding, ask, wrong[finding.ask]!, spanish)).not.toBe(finding.says);
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
