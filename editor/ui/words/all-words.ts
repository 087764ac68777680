// Holds the words of every language at once, for what does not wait for one to be fetched: the tests.
import { esDrawings } from "./es/drawings.ts";
import { es, esEngine } from "./es.ts";
import { holdWords } from "./words.ts";

holdWords("es", { ...es, ...esDrawings }, esEngine);
