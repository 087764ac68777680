// English words of the state of a job, the bar under its title, and lengths of time. `{name}` stands for a
// fact.
export const enState = {
  "state.ready": "Ready",
  "state.waiting": "Waiting",
  "state.stopped": "Stopped",
  "state.referred": "Referred",
  "state.impossible": "Impossible",
  "state.ready.means": "Everything that the steps need is answered; they are released.",
  "state.waiting.means": "Some answers are still missing; no steps yet.",
  "state.stopped.means": "A stop holds; the steps are withheld.",
  "state.referred.means": "Somebody else decides; the steps are withheld.",
  "state.impossible.means": "These answers lead to no work that the book can give.",
  "state.steps.one": "1 step",
  "state.steps": "{count} steps",
  "state.of-work": "{steps}, {time} of work",
  "state.for-an-answer": "for an answer",
  "state.measure-again": "measure again",
  "state.for.one": "for 1 answer",
  "state.for": "for {count} answers, perhaps fewer",
  "state.withheld": "the steps are withheld",
  "state.no-steps": "no steps from these answers",
  "state.unusable.one": "1 answer cannot be used",
  "state.unusable": "{count} answers cannot be used",

  "bar.print": "Print the card",
  "bar.card": "See the card",

  "time.none": "none",
  "time.under": "under 1 min",
  "time.day": "1 day",
  "time.days": "{count} days",
} as const;
