// The parts of the job screen that come after the first question, for every component of it that shows one.
import { fetchDrawnWords } from "../ui/words/words.ts";
import { useLoaded } from "../ui/parts/load-later.ts";

/** The page is marked with the language that its words are in. */
const load = async () =>
  (
    await Promise.all([
      import("./later.tsx"),
      fetchDrawnWords(document.documentElement.lang === "es" ? "es" : "en"),
    ])
  )[0];

/** Undefined until they are there. */
export const useLater = () => useLoaded(load);
