// Run by `npm ci` and `npm install`: builds the programs, so that their first start need not. Where that
// fails, the first start tries again.
import { buildPrograms } from "./start-program.mjs";

if (!(await buildPrograms("inherit")))
  console.error("The programs could not be built; they will start slowly.");
