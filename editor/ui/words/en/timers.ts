// English words of the timers. `{name}` stands for a fact.
export const enTimers = {
  "timer.strip": "Timers",
  "timer.start": "Start the wait: {wait}",
  "timer.start-step": "Start the wait: {wait}, step {step}",
  "timer.step": "Wait of step {step} {name}",
  "timer.until": "until {time}",
  "timer.over-since": "over since {time}",
  "timer.seen": "Seen",
  "timer.stop": "Stop",
} as const;
