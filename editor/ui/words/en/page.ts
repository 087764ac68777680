// English words of the job page itself: its head, what it waits for, editions that arrive. `{name}` stands
// for a fact.
export const enPage = {
  "page.title": "Job card",
  "page.first":
    "Follow the material’s own label, local codes and licensed practice. Where this card differs, " +
    "they come first.",
  "page.reading": "Reading the book…",
  "page.still-reading": "Still reading the book…",
  "page.fault": "This book has a fault. What rests on it is not worked. Tell the lead.",
  "page.faults": "This book has {count} faults. What rests on them is not worked. Tell the lead.",
  "page.no-book": "There is no book to work by. Open one at the bench first.",
  "page.restarted":
    "Working this out took too long, so it was stopped and started again. Your answers are kept.",
  "page.failed": "The working-out failed: {reason} Your answers are kept.",
  "page.sealed":
    "Edition {edition} is sealed. This job stays with the book that it was begun by; new jobs go by " +
    "edition {edition}.",
  "page.sealed-from":
    "Edition {edition} is sealed. This job stays with edition {from}; new jobs go by edition {edition}.",
  "page.sealed-now": "Edition {edition} is sealed. Jobs go by it from now on.",
  "page.sealed-read": "Read",
  "page.sealed-faults": "This edition was sealed with a known fault. The lead’s reason: {reason}",
  "page.sealed-faults-many": "This edition was sealed with {count} known faults. The lead’s reason: {reason}",
  "page.new": "Begin a new job",
  "page.settings": "Settings",
} as const;
