// Spanish words of the line above a job: its name, the other jobs, what is kept and delivered, as spoken in a
// workshop.
import type { enJobBar } from "../en/job-bar.ts";

export const esJobBar: Readonly<Record<keyof typeof enJobBar, string>> = {
  "record.jobs": "Trabajos en este aparato",
  "record.name": "Nombre de este trabajo",
  "record.name-hint": "Vehículo y lugar, p. ej. furgón gris, estribo izquierdo",
  "record.kept": "Guardado en este aparato",
  "record.nothing-yet": "Aún no hay nada anotado",
  "record.delivered": "entregado {ago}",
  "record.waits-one": "1 anotación espera",
  "record.waits": "{count} anotaciones esperan",
  "record.sign-in": "para entregar, tiene que entrar un técnico o un responsable",
  "record.sign-in-here": "Entrar",
  "record.unwanted": "{count} no aceptadas por el servidor del taller",
  "record.clock": "el reloj de este aparato y el del servidor difieren en {count} min",
  "record.unkept": "Este navegador no guarda nada: imprima la hoja antes de cerrar la página.",
  "record.ago-now": "ahora mismo",
  "record.ago-minutes": "hace {count} min",
  "record.ago-hours": "hace {count} h",
  "record.ago-days": "hace {count} días",
  "record.begin-sure": "Toque otra vez: este trabajo queda en la lista",
  "record.untitled": "Trabajo sin nombre",
};
