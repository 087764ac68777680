// What the reference says of the findings about asks, dials, drawings, worked examples, promises, and the
// limits of a book: the way out, and the smallest book that causes each.
import type { FindingPage } from "./page.ts";

export const BOOK: Readonly<Record<string, FindingPage>> = {
  "ask/of-what": { mend: "Add `in` and a unit, or `of` and a kind.", smallest: "ask depth" },
  "ask/no-range": {
    mend: "Write the smallest and the largest sensible answer behind a comma: `, 0.5 to 30`.",
    smallest: "ask depth in mm",
  },
  "ask/range": {
    mend: "Write the smaller end first; words need no range. What is never answered otherwise is a dial.",
    smallest: "ask depth in mm, 30 to 0.5",
  },
  "ask/usual": {
    mend: "Name a part of the range, or some of the words.",
    smallest: "ask damp in %, 5 to 100, usually 35 to 120",
  },
  "ask/fallback": {
    mend: "Take what could have been answered, or widen the range.",
    smallest: "ask depth in mm, 1 to 12\n    if unknown take 20 mm",
  },
  "dial/literal": {
    mend: "Write a number with its unit, or make it a figure.",
    smallest: "ask depth in mm, 0 to 10\ndial width = depth\n    from practice",
  },
  "dial/span": {
    mend: "Set the dial within its span, or widen the span.",
    smallest: "dial house-taper = 1:6, from 1:8 to 1:20\n    from practice",
  },
  "picture/unknown": {
    mend: "Choose one of the drawings.",
    smallest: "ask depth in mm, 0 to 10\npicture sektion with thickness depth",
  },
  "picture/argument": {
    mend: "Name what the drawing knows.",
    smallest: "ask depth in mm, 0 to 10\npicture section with wide depth",
  },
  "picture/missing": {
    mend: "Give the drawing what it rests on.",
    smallest: "ask depth in mm, 0 to 10\npicture section with thickness depth",
  },
  "picture/twice": {
    mend: "Leave one of the two out.",
    smallest: "ask depth in mm, 0 to 10\npicture section with thickness depth, run depth, run depth",
  },
  "picture/wants": {
    mend: "Name a value that measures what the drawing shows.",
    smallest:
      "ask air in °C, 0 to 40\nask depth in mm, 0 to 10\npicture section with thickness depth, run air",
  },
  "ask/drawn": {
    mend: "Choose one of the places, or `none`.",
    smallest: "ask depth in mm, 0 to 10\n    drawn as deepness",
  },
  "ask/drawn-as": {
    mend: "Choose a place where that is measured.",
    smallest: "ask air in °C, 0 to 40\n    drawn as thickness",
  },
  "worked/fails": {
    mend: "Either the rule or the example is wrong: ask why of the value, and mend the one that is.",
    smallest:
      "ask depth in mm, 0 to 10\nfigure twice in mm = 2 * depth\n" +
      'worked first "Twice three"\n    with depth 3 mm\n    gives twice 7 mm',
  },
  "worked/answer": {
    mend: "Give an answer that the ask allows.",
    smallest:
      'ask depth in mm, 0 to 10\nfigure twice in mm = 2 * depth\nworked first "Too deep"\n' +
      "    with depth 30 mm\n    gives twice 60 mm",
  },
  "worked/not-asked": {
    mend: "Give answers to asks; expect the others.",
    smallest: 'figure twice in mm = 6 mm\nworked first "One"\n    with twice 6 mm\n    gives twice 6 mm',
  },
  "worked/nothing": {
    mend: "Say what it gives, so that it guards the book.",
    smallest: 'ask depth in mm, 0 to 10\nworked first "One"\n    with depth 3 mm',
  },
  "worked/text": {
    mend: 'Write what the card reads: `gives label "3 mm deep"`.',
    smallest:
      'ask depth in mm, 0 to 10\nfigure label = "{depth} deep"\nworked first "One"\n' +
      '    with depth 3 mm\n    gives label "{depth} deep"',
  },
  "worked/expects": {
    mend: "Name a value and what it should be, or a state.",
    smallest: 'ask depth in mm, 0 to 10\nworked first "One"\n    with depth 3 mm\n    gives finished',
  },
  "promise/when-stopped": {
    mend: "Put or stopped behind what is promised, before when.",
    smallest:
      'ask depth in mm, 0 to 10\nask wet of yes-no\nstop deep "Too deep" when depth > 5 mm\n' +
      "promise depth <= 5 mm when wet or stopped",
  },
  "promise/broken": {
    mend: "Change the rules, or promise less.",
    smallest:
      "ask depth in mm, 0 to 10\nfigure twice in mm = 2 * depth\npromise twice < 5 mm\n" +
      'worked first "Twice three"\n    with depth 3 mm\n    gives twice 6 mm',
  },
  "budget/size": { mend: "Part the book in two.", smallest: () => `-- ${"x".repeat(2 * 1024 * 1024)}` },
  "budget/lines": { mend: "Part the book in two.", smallest: () => "--\n".repeat(50_001) },
  "budget/nesting": {
    mend: "Give parts of it names, as figures.",
    smallest: () => `figure deep = ${"(".repeat(201)}1${")".repeat(201)}`,
  },
  "budget/list": {
    mend: "Count to less.",
    smallest: "list plies for n from 1 to 10001\n    across in mm = n * 10 mm",
  },
  "budget/formulas": {
    mend: "Let a formula be used fewer times within others; figures are worked once each.",
    smallest: () =>
      [
        "formula f0(x) = x + x",
        ...Array.from({ length: 20 }, (_, i) => `formula f${i + 1}(x) = f${i}(x) + f${i}(x)`),
        "figure big = f20(1)",
      ].join("\n"),
  },
};
