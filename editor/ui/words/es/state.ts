// Spanish words of the state of a job, the bar under its title, and lengths of time, as spoken in a workshop.
import type { enState } from "../en/state.ts";

export const esState: Readonly<Record<keyof typeof enState, string>> = {
  "state.ready": "Listo",
  "state.waiting": "En espera",
  "state.stopped": "Alto",
  "state.referred": "A consultar",
  "state.impossible": "Imposible",
  "state.ready.means": "Todo lo que piden los pasos está contestado; quedan a la vista.",
  "state.waiting.means": "Faltan respuestas; todavía no hay pasos.",
  "state.stopped.means": "Hay un alto; los pasos se retienen.",
  "state.referred.means": "Lo decide otra persona; los pasos se retienen.",
  "state.impossible.means": "Con estas respuestas el libro no puede dar ningún trabajo.",
  "state.steps.one": "1 paso",
  "state.steps": "{count} pasos",
  "state.of-work": "{steps}, {time} de trabajo",
  "state.for-an-answer": "falta una respuesta",
  "state.measure-again": "mida otra vez",
  "state.for.one": "falta 1 respuesta",
  "state.for": "faltan {count} respuestas, quizá menos",
  "state.withheld": "los pasos se retienen",
  "state.no-steps": "estas respuestas no dan pasos",
  "state.unusable.one": "1 respuesta no sirve",
  "state.unusable": "{count} respuestas no sirven",

  "bar.print": "Imprimir la hoja",
  "bar.card": "Ver la hoja",

  "time.none": "nada",
  "time.under": "menos de 1 min",
  "time.day": "1 día",
  "time.days": "{count} días",
};
