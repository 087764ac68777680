// English words of what the tolerances of the answers leave open. `{name}` stands for a fact.
export const enTolerance = {
  "doubt.none": "Within the tolerances given nothing turns: every decision stays as it is.",
  "doubt.heading": "Within the tolerances this may turn",
  "doubt.more": "And {count} more.",
  "doubt.withheld": "Measure again before the work: within the tolerances this may turn",
  "doubt.again": "Measure again: {question}",
  "doubt.turns-at": "It turns at {value}, {away} from the answer.",
  "doubt.whether-holds": "Whether {what} holds turns within the tolerance.",
  "doubt.whether-applies": "Whether {what} applies turns within the tolerance.",
  "doubt.may-be": "{name} may be {words} within the tolerance.",
  "doubt.another": "another",
  "doubt.or": "or",
} as const;
