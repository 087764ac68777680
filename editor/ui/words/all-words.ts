// Holds the words of every language at once, for what does not wait for one to be fetched: the tests.
import { enLate } from "./en-lazy.ts";
import { esLate } from "./es-lazy.ts";
import { es, esEngine } from "./es.ts";
import { holdWords } from "./words.ts";

holdWords("en", enLate);
holdWords("es", { ...es, ...esLate }, esEngine);
