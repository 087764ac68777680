// The parts of the job screen that come after the first question, for every component of it that shows one.
import { useLoaded } from "./record/after.ts";

const load = () => import("./later.tsx");

/** Undefined until they are there. */
export const useLater = () => useLoaded(load);
