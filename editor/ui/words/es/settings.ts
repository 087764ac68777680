// Spanish words of the settings of a device, as spoken in a workshop.
import type { enSettings } from "../en/settings.ts";

export const esSettings: Readonly<Record<keyof typeof enSettings, string>> = {
  "settings.units": "Unidades",
  "settings.units.book": "Las del libro",
  "settings.units.metric": "Métricas",
  "settings.units.us": "EE. UU.",
  "settings.hand": "Mano que sujeta la tableta",
  "settings.hand.left": "Izquierda",
  "settings.hand.right": "Derecha",
};
