// English words of the line above a job: its name, the other jobs, what is kept and delivered. `{name}`
// stands for a fact.
export const enJobBar = {
  "record.jobs": "Jobs on this device",
  "record.name": "Name of this job",
  "record.name-hint": "Vehicle and place, e.g. grey van, left sill",
  "record.kept": "Kept on this device",
  "record.nothing-yet": "Nothing is entered yet",
  "record.delivered": "delivered {ago}",
  "record.waits-one": "1 entry waits",
  "record.waits": "{count} entries wait",
  "record.sign-in": "to be delivered, a technician or lead has to sign in",
  "record.sign-in-here": "Sign in",
  "record.unwanted": "{count} not taken by the shop’s host",
  "record.clock": "this device’s clock and the host’s differ by {count} min",
  "record.unkept": "This browser keeps nothing: print the card before you close the page.",
  "record.ago-now": "just now",
  "record.ago-minutes": "{count} min ago",
  "record.ago-hours": "{count} h ago",
  "record.ago-days": "{count} days ago",
  "record.begin-sure": "Press again: this job stays in the list",
  "record.untitled": "Job without a name",
} as const;
