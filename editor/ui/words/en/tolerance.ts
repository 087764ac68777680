// English words of what the tolerances of the answers leave open. `{name}` stands for a fact.
export const enTolerance = {
  "doubt.none": "Within the tolerances given nothing turns: every decision stays as it is.",
  "doubt.heading": "Within the tolerances this may turn",
  "doubt.word": "It may be: {words}.",
  "doubt.stop": "This stop may apply: {text}",
  "doubt.steps.one": "1 step depends on it.",
  "doubt.steps": "{count} steps depend on it.",
  "doubt.another": "something else",
  "doubt.or": "or",
  "doubt.withheld": "Measure again before the work: a decision turns within the tolerance",
  "doubt.again": "Measure again: {question}",
  "doubt.turns-at": "It turns at {value}, {away} from the answer.",
} as const;
