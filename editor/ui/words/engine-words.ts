// What the engine says in English, said again in the language of the page where its form is known: what a
// value waits for, which row decided, answers that cannot be used. What is not known here is given as the
// engine wrote it.
import type {
  AskView,
  ToleranceView,
  SensitivityView,
  JobView,
  Shown,
  TraceStep,
} from "../../../core/view.ts";
import type { WordKey } from "./en.ts";
import { english } from "./words.ts";
import type { Say } from "./words.ts";

/** A short phrase of the engine: why there is no value, or what decided. */
export function phrase(text: string, say: Say): string {
  if (say === english) return text;
  const known = whole[text];
  if (known !== undefined) return say(known);
  for (const [form, put] of forms) {
    const found = form.exec(text);
    if (found !== null)
      return put(
        found.slice(1).map((part) => part ?? ""),
        say,
      );
  }
  return text;
}

const whole: Readonly<Record<string, WordKey>> = {
  "no row fits": "engine.no-row",
  "otherwise: none of the others applies": "engine.none-applies",
  "it has no value": "engine.no-value",
  "it has a finding": "engine.finding",
  "it cannot be read": "engine.unreadable",
  "is not known": "engine.not-known",
  "not answered yet": "engine.not-answered",
  "answered: cannot tell; the book takes this instead": "engine.taken-instead",
  "it is part of a loop": "engine.loop",
  "its chart has a finding": "engine.chart-finding",
};

const forms: readonly (readonly [RegExp, (parts: readonly string[], say: Say) => string])[] = [
  [/^waits for (.*)$/s, ([names = ""], say) => say("engine.waits-for", { names })],
  [
    /^rows ([\d, ]+) are all still possible and agree$/,
    ([rows = ""], say) => say("engine.rows-agree", { rows }),
  ],
  [/^still possible: rows ([\d, ]+)$/, ([rows = ""], say) => say("engine.rows-possible", { rows })],
  [/^rows left: (.*)$/s, ([words = ""], say) => say("engine.rows-left", { words })],
  [
    /^(row \d+ of .*?); (row \d+ of .*)$/s,
    ([one = "", others = ""], say) => `${phrase(one, say)}; ${phrase(others, say)}`,
  ],
  [
    /^row (\d+) of ([^:]+): (.*)$/s,
    ([row = "", name = "", cells = ""], say) => say("engine.row-of", { row, name, cells }),
  ],
  [/^waits: (.*)$/s, ([line = ""], say) => say("engine.line-waits", { line })],
  [/^has no answer: (.*)$/s, ([line = ""], say) => say("engine.line-has-none", { line })],
  [/^row (\d+): (.*)$/s, ([row = "", cells = ""], say) => say("engine.row", { row, cells })],
  [/^at row (\d+): (.*)$/s, ([row = "", cells = ""], say) => say("engine.at-row", { row, cells })],
  [
    /^between rows (.*) and (\d+ .*)$/s,
    ([one = "", other = ""], say) =>
      say("engine.between-rows", { rows: `${one} ${say("flip.and")} ${other}` }),
  ],
  [/^the answers to (.*) leave no row$/s, ([names = ""], say) => say("engine.leave-no-row", { names })],
  [/^not settled: (.*)$/s, ([what = ""], say) => say("engine.not-settled", { what })],
  [
    /^answered (.*)$/s,
    ([answer = ""], say) =>
      say("engine.answered", {
        answer: answer === "yes" ? say("ask.yes") : answer === "no" ? say("ask.no") : answer,
      }),
  ],
  [
    /^no row of (.*) is left: the answers contradict one another$/s,
    ([name = ""], say) => say("engine.contradict", { name }),
  ],
  [/^no row of (.*) fits$/s, ([name = ""], say) => say("engine.no-row-of", { name })],
  [/^it is off the end of (.*)$/s, ([name = ""], say) => say("engine.off-end", { name })],
  [/^since (.*)$/s, ([what = ""], say) => say("why.since", { what })],
];

/** A value's text; for one that is not known, what it waits for. */
export function shownText(value: Shown, say: Say): string {
  switch (value.state) {
    case "known":
      return value.value === true ? say("ask.yes") : value.value === false ? say("ask.no") : value.text;
    case "unknown":
      return value.waitsFor !== undefined && value.waitsFor.length > 0
        ? say("engine.waits-for", { names: value.waitsFor.join(", ") })
        : phrase(value.text, say);
    case "impossible":
      return phrase(value.reason ?? value.text, say);
  }
}

/** The value of a line of a trace, where it is not a number or a word of the book. */
export const traceValue = (step: TraceStep, say: Say): string =>
  step.value === "yes" ? say("ask.yes") : step.value === "no" ? say("ask.no") : phrase(step.value, say);

/** Why an answer cannot be used, by the code of its finding. */
export function faultWords(
  finding: JobView["findings"][number],
  ask: AskView | undefined,
  answer: string,
  say: Say,
): string {
  if (say === english || ask === undefined) return finding.says;
  const unit = ask.answer.is === "quantity" ? ask.answer.unit : "";
  switch (finding.code) {
    case "answer/word":
      return ask.answer.is === "yes-no" ? say("fault.yes-no") : say("fault.word", { answer });
    case "answer/unit":
      return say("fault.unit", { answer, unit });
    case "answer/count":
      return say("fault.count");
    case "answer/range":
      return ask.answer.is === "quantity"
        ? say("fault.range", { answer, low: ask.answer.low, high: ask.answer.high })
        : finding.says;
    case "answer/tolerance":
      return say("fault.tolerance", { unit });
    case "answer/unreadable":
      return say("fault.unreadable", { answer });
    case "answer/not-asked":
      return say("fault.not-asked");
    default:
      return finding.says;
  }
}

/** "method becomes wet-layup", "step lay-up applies": what a close call turns. */
export function turnWords(turn: string, say: Say): string {
  for (const [form, key] of turnForms) {
    const [, what, word = ""] = form.exec(turn) ?? [];
    if (what === undefined) continue;
    return key === "flip.becomes"
      ? say(key, { name: what, word })
      : key === "flip.no-value"
        ? say(key, { name: what })
        : say(key, { what: lineName(what, say) });
  }
  return turn;
}

const turnForms = [
  [/^(.+) becomes (.+)$/, "flip.becomes"],
  [/^(.+) has no value$/, "flip.no-value"],
  [/^(.+) cannot be told$/, "flip.cannot-be-told"],
  [/^(.+) no longer holds$/, "flip.holds-not"],
  [/^(.+) no longer applies$/, "flip.applies-not"],
  [/^(.+) holds$/, "flip.holds"],
  [/^(.+) applies$/, "flip.applies"],
] as const;

/** `step lay-up` with its first word in the language of the page. */
function lineName(what: string, say: Say): string {
  const [, word, name = ""] = /^(step|caution|stop) (.+)$/.exec(what) ?? [];
  return word === "step" || word === "caution" || word === "stop" ? `${say(`does.${word}`)} ${name}` : what;
}

/** The sentence of a close call, made anew from what changes and what turns. */
export function flipWords(flip: SensitivityView, say: Say): string {
  // The engine leads with the turn that matters most, wherever it stands among the others.
  const first =
    [...flip.turns].sort((a, b) => b.length - a.length).find((turn) => flip.says.startsWith(turn)) ??
    flip.turns[0] ??
    "";
  const and = ` ${say("flip.and")} `;
  const facts = {
    turn: turnWords(first, say),
    count: flip.turns.length - 1,
    changes: flip.changes.map(({ ask, to }) => say("flip.is", { ask, to })).join(and),
    now: flip.changes.map(({ now }) => say("flip.now", { now })).join(", "),
  };
  return flip.turns.length > 1 ? say("flip.when-more", facts) : say("flip.when", facts);
}

/** A decision left open by tolerances, as a sentence. */
export function doubtWords(says: ToleranceView["open"][number]["says"], say: Say): string {
  const bare = says.replace(/: measure again$/, "");
  const [, what, does] = /^whether (.+) (holds|applies) turns within the tolerance$/.exec(bare) ?? [];
  if (what !== undefined)
    return say(does === "holds" ? "doubt.whether-holds" : "doubt.whether-applies", {
      what: lineName(what, say),
    });
  const [, name, words] = /^(\S+) may be (.+) within the tolerance$/.exec(bare) ?? [];
  if (name !== undefined && words !== undefined) {
    return say("doubt.may-be", {
      name,
      words: words === "another" ? say("doubt.another") : words.split(" or ").join(` ${say("doubt.or")} `),
    });
  }
  return `${bare.charAt(0).toUpperCase()}${bare.slice(1)}.`;
}
