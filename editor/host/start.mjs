// `npm start`: runs start.ts from its bundle.
import { startProgram } from "../build/start-program.mjs";

await startProgram("start");
