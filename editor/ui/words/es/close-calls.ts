// Spanish words of close calls: the nearest answers that would change the job, as spoken in a workshop.
import type { enCloseCalls } from "../en/close-calls.ts";

export const esCloseCalls: Readonly<Record<keyof typeof enCloseCalls, string>> = {
  "flip.heading": "Por poco: qué lo cambiaría",
  "flip.looking": "Buscando los cambios más cercanos…",
  "flip.none": "Ninguna respuesta sola, ni dos a la vez de las probadas, cambiaría lo que dice este trabajo.",
  "flip.more": "{count} más",
  "flip.all": "Todo lo que cambia",
  "flip.when": "{turn} si {changes}: {now}.",
  "flip.when-more": "{turn} (y {count} cosas más) si {changes}: {now}.",
  "flip.is": "{ask} es {to}",
  "flip.now": "ahora es {now}",
  "flip.and": "y",
  "flip.becomes": "{name} pasa a {word}",
  "flip.no-value": "{name} queda sin valor",
  "flip.cannot-be-told": "no se puede saber {what}",
  "flip.holds": "vale {what}",
  "flip.holds-not": "ya no vale {what}",
  "flip.applies": "se aplica {what}",
  "flip.applies-not": "ya no se aplica {what}",
};
