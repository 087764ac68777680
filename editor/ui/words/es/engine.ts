// Spanish sentences of what the engine says of a value: one for each code of a reason and of a decision.
import type { ClashingRow, RowFacts, WordsByCode } from "../../../../core/reason.ts";
import type { Decision, Reason } from "../../../../core/reason.ts";
import { conditionText, wordsOf } from "../../../../core/reason.ts";
import type { EngineWords } from "../words.ts";

const clashingRow = ({ row, line, cells }: ClashingRow): string =>
  `la fila ${row}` +
  (line === undefined ? "" : ` en la línea ${line}`) +
  (cells === undefined ? "" : ` (${cells})`);

const reasons: WordsByCode<Reason> = {
  "no-value": () => "no tiene valor",
  finding: () => "tiene un error",
  "part-finding": () => "tiene un error",
  "chart-finding": () => "su tabla tiene un error",
  loop: () => "forma parte de un círculo",
  unreadable: () => "no se puede leer",
  "line-unreadable": ({ keyword }) => `no se puede leer una línea «${keyword}» del libro`,
  "unknown-line-unreadable": ({ word }) => `no se puede leer una línea del libro que empieza por «${word}»`,
  "formulas-too-large": () => "las fórmulas del libro crecen más de lo que se calcula",
  "book-missing": ({ book, as }) =>
    as === "used"
      ? `falta el libro ${book}, que este libro usa`
      : `falta el libro ${book}, que este libro enmienda`,
  "book-circle": ({ book }) => `${book} se apoya en sí mismo`,
  "books-too-deep": () => "hay más libros apoyados unos en otros de los que se leen",
  "no-alternative": () => "no se da ninguna de las alternativas",
  "no-row": ({ chart }) => `ninguna fila de ${chart} encaja`,
  "rows-clash": ({ chart, rows }) => `se aplican dos filas de ${chart}: ${rows.map(clashingRow).join(" y ")}`,
  "answers-contradict": ({ chart }) => `no queda ninguna fila de ${chart}: las respuestas se contradicen`,
  "no-row-left": () => "no queda ninguna fila",
  "off-chart": ({ chart }) => `queda fuera de ${chart}`,
  "no-grid-point": () => "la cuadrícula de la tabla no tiene ese punto",
  "fallback-range": ({ ask, low, high }) =>
    `lo que el libro toma para ${ask} queda fuera de ${low} a ${high}, que es lo que pregunta`,
  "divides-by-zero": () => "divide por cero",
  "too-large": () => "crece demasiado",
  "root-of-negative": () => "saca la raíz de un número negativo",
  "log-of-nonpositive": () => "saca el logaritmo de un número que no es mayor que cero",
  "fractional-power-of-negative": () => "eleva un número negativo a una potencia que no es entera",
  "rounds-to-nothing": () => "redondea a múltiplos de nada",
  "list-not-whole": ({ list }) => `${list} cuenta hasta un número que no es entero`,
  "list-too-long": ({ list, rows, most }) =>
    `${list} tendría ${rows} filas; una lista tiene ${most} como mucho`,
  "list-empty": () => "la lista no tiene filas",
  "list-without-rows": () => "no tiene filas",
  "no-row-above": ({ list }) => `la primera fila de ${list} no tiene otra encima`,
  "too-much-work": () => "este trabajo pide más cálculo del que se hace para uno solo",
  "answer/word": ({ answer }) => `«${answer}» no es una de las opciones.`,
  "answer/yes-no": () => "Aquí se contesta sí o no.",
  "answer/unit": ({ answer, example }) =>
    `«${answer}» está en una unidad que aquí no vale. Escriba por ejemplo ${example}.`,
  "answer/two-ways": ({ answer, whole, decimal }) =>
    `«${answer}» se puede leer de dos maneras. Escriba ${whole} o, si era un decimal, ${decimal}.`,
  "answer/count": () => "Aquí se cuenta: un número entero.",
  "answer/range": ({ answer, low, high }) =>
    `«${answer}» queda fuera. El libro admite aquí de ${low} a ${high}.`,
  "answer/tolerance": ({ unit }) =>
    `No se puede leer lo que va detrás de ±. Escríbalo como ± 0.2${unit === undefined ? "" : ` ${unit}`}.`,
  "answer/unreadable": ({ answer, example, near }) =>
    `«${answer}» no se puede leer como respuesta. ` +
    `${near === undefined ? "" : `¿Quiso decir ${near}? `}Escriba por ejemplo ${example}.`,
  "answer/too-long": () => "Es más larga que cualquier respuesta posible.",
  "answer/not-asked": () => "El libro no pregunta esto.",
};

const joined = (points: readonly RowFacts[], one: (point: RowFacts) => string): string =>
  points.map(one).join(" y ");

const decisions: WordsByCode<Decision> = {
  row: ({ row, cells }) => `fila ${row}: ${cells}`,
  "at-row": ({ row, cells }) => `en la fila ${row}: ${cells}`,
  "between-rows": ({ points }) =>
    `entre las filas ${joined(points, ({ row, cells }) => `${row} (${cells})`)}`,
  "rows-of-chart": ({ chart, points }) =>
    joined(points, ({ row, cells }) => `fila ${row} de ${chart}: ${cells}`),
  "rows-agree": ({ rows }) => `las filas ${rows.join(", ")} siguen siendo posibles y coinciden`,
  "rows-possible": ({ rows }) => `aún posibles: filas ${rows.join(", ")}`,
  "rows-left": ({ rows }) => `quedan las filas: ${rows.join(", ")}`,
  "no-row-fits": () => "ninguna fila encaja",
  "rows-both-apply": ({ rows }) =>
    `se aplican a la vez las filas ${joined(rows, ({ row, cells }) => `${row} (${cells})`)}`,
  "answers-leave-no-row": ({ asks }) => `las respuestas a ${asks.join(", ")} no dejan ninguna fila`,
  since: (condition) => `ya que ${conditionText(condition)}`,
  otherwise: ({ not = [] }) =>
    not.length === 0
      ? "si no: no se da ningún otro caso"
      : `si no: ${not.map((one) => `no ${conditionText(one)}`).join(", ")}`,
  "not-settled": ({ condition }) => `sin decidir: ${condition}`,
  "as-in-book": ({ book }) =>
    book === undefined
      ? "en los demás casos, como en el libro de debajo"
      : `en los demás casos, como en ${book}`,
  answered: ({ answer }) => `contestado ${answer === "yes" ? "sí" : answer}`,
  "taken-for-blank": () => "sin contestar; el libro toma esto",
  "taken-instead": () => "contestado: no se sabe; el libro toma esto en su lugar",
  "not-answered": () => "sin contestar todavía",
  unusable: ({ reason }) => wordsOf(reasons, reason),
};

export const esEngine: EngineWords = {
  reasons,
  decisions,
  waitsFor: (asks) => (asks.length > 0 ? `falta ${asks.join(", ")}` : "no se sabe"),
};
