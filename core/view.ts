// What the engine shows to the rest of the program: plain data, in the words of people who write books and
// work jobs. Screens, the terminal and the records are built on these shapes and on nothing deeper.
export type * from "./views/book.ts";
export type * from "./views/comparison.ts";
export type * from "./views/drawing.ts";
export type * from "./views/job.ts";
export type * from "./views/proof.ts";
export type * from "./views/tolerance.ts";
