// Spanish words of what the tolerances of the answers leave open, as spoken in a workshop.
import type { enTolerance } from "../en/tolerance.ts";

export const esTolerance: Readonly<Record<keyof typeof enTolerance, string>> = {
  "doubt.none": "Dentro de las tolerancias dadas no cambia nada: cada decisión queda como está.",
  "doubt.heading": "Dentro de las tolerancias esto puede cambiar",
  "doubt.word": "Puede ser: {words}.",
  "doubt.stop": "Puede aplicarse este alto: {text}",
  "doubt.steps.one": "1 paso depende de ello.",
  "doubt.steps": "{count} pasos dependen de ello.",
  "doubt.another": "otra cosa",
  "doubt.or": "o",
  "doubt.withheld": "Mida otra vez antes del trabajo: una decisión cambia dentro de la tolerancia",
  "doubt.again": "Mida otra vez: {question}",
  "doubt.turns-at": "Cambia en {value}, a {away} de la respuesta.",
};
