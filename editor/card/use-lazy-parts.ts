// The parts of the job screen that come after the first question, for every component of it that shows one.
import { fetchLateWords } from "../ui/words/words.ts";
import { useLoaded } from "../ui/parts/lazy-load.ts";

const load = async () => (await Promise.all([import("./lazy-parts.tsx"), fetchLateWords()]))[0];

/** Undefined until they are there. */
export const useLater = () => useLoaded(load);
