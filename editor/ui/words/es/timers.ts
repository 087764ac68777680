// Spanish words of the timers, as spoken in a workshop.
import type { enTimers } from "../en/timers.ts";

export const esTimers: Readonly<Record<keyof typeof enTimers, string>> = {
  "timer.strip": "Temporizadores",
  "timer.start": "Iniciar la espera: {wait}",
  "timer.start-step": "Iniciar la espera: {wait}, paso {step}",
  "timer.step": "Espera del paso {step} {name}",
  "timer.until": "hasta las {time}",
  "timer.over-since": "terminó a las {time}",
  "timer.seen": "Visto",
  "timer.stop": "Parar",
};
