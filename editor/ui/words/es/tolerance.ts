// Spanish words of what the tolerances of the answers leave open, as spoken in a workshop.
import type { enTolerance } from "../en/tolerance.ts";

export const esTolerance: Readonly<Record<keyof typeof enTolerance, string>> = {
  "doubt.none": "Dentro de las tolerancias dadas no cambia nada: cada decisión queda como está.",
  "doubt.heading": "Dentro de las tolerancias esto puede cambiar",
  "doubt.more": "Y {count} más.",
  "doubt.withheld": "Mida otra vez antes del trabajo: dentro de las tolerancias esto puede cambiar",
  "doubt.again": "Mida otra vez: {question}",
  "doubt.turns-at": "Cambia en {value}, a {away} de la respuesta.",
  "doubt.whether-holds": "Si {what} vale o no, cambia dentro de la tolerancia.",
  "doubt.whether-applies": "Si {what} se aplica o no, cambia dentro de la tolerancia.",
  "doubt.may-be": "{name} puede ser {words} dentro de la tolerancia.",
  "doubt.another": "otro",
  "doubt.or": "o",
};
