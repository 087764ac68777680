// Spanish words of choosing a book, as spoken in a workshop.
import type { enBook } from "../en/book.ts";

export const esBook: Readonly<Record<keyof typeof enBook, string>> = {
  "book.heading": "¿Con qué libro va este trabajo?",
  "book.all": "Libros en este aparato",
  "book.now": "en uso ahora",
  "book.yours": "guardado en este navegador",
  "book.sealed": "sellado por el taller",
  "book.shipped": "viene con el programa",
  "book.change": "Otro libro",
  "book.edition": "edición {edition}",
  "book.looking": "Buscando los libros…",
  "book.back": "Seguir con este libro",
};
