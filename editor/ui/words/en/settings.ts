// English words of the settings of a device. `{name}` stands for a fact.
export const enSettings = {
  "settings.units": "Units shown",
  "settings.units.book": "As the book says",
  "settings.units.metric": "Metric",
  "settings.units.us": "US",
  "settings.hand": "Hand that holds the tablet",
  "settings.hand.left": "Left",
  "settings.hand.right": "Right",
} as const;
