// Spanish words of the job page itself: its head, what it waits for, editions that arrive, as spoken in a
// workshop.
import type { enPage } from "../en/page.ts";

export const esPage: Readonly<Record<keyof typeof enPage, string>> = {
  "page.title": "Hoja de trabajo",
  "page.first":
    "Siga la etiqueta del material, las normas locales y la práctica autorizada. Si esta hoja dice " +
    "otra cosa, mandan ellas.",
  "page.reading": "Leyendo el libro…",
  "page.still-reading": "Todavía leyendo el libro…",
  "page.fault": "Este libro tiene un error. Lo que depende de él no se calcula. Avise al responsable.",
  "page.faults":
    "Este libro tiene {count} errores. Lo que depende de ellos no se calcula. Avise al responsable.",
  "page.no-book": "No hay ningún libro con que trabajar. Abra primero uno en el banco.",
  "page.restarted":
    "El cálculo tardó demasiado; se paró y se empezó de nuevo. Sus respuestas están guardadas.",
  "page.failed": "El cálculo falló: {reason} Sus respuestas están guardadas.",
  "page.sealed":
    "La edición {edition} está sellada. Este trabajo sigue con el libro con el que empezó; los nuevos" +
    " van con la edición {edition}.",
  "page.sealed-from":
    "La edición {edition} está sellada. Este trabajo sigue con la edición {from}; los nuevos van con " +
    "la edición {edition}.",
  "page.sealed-now": "La edición {edition} está sellada. Los trabajos van con ella desde ahora.",
  "page.sealed-read": "Leído",
  "page.sealed-faults": "Esta edición se selló con un defecto conocido. La razón del responsable: {reason}",
  "page.sealed-faults-many":
    "Esta edición se selló con {count} defectos conocidos. La razón del responsable: {reason}",
  "page.new": "Empezar otro trabajo",
  "page.settings": "Ajustes",
};
