// Prints the figures of proofs, each beside its aim, and how they grow as ratios to the smallest of their
// kind.
import { proofFigures } from "./proof.ts";

console.log("\nProofs (milliseconds of the processor, medians)");
const first = new Map<string, number>();
for (const { name, busy, aim, more } of proofFigures(process.argv.includes("--quick") ? 1 : 3)) {
  const sort = name.replace(/\d+/g, "#");
  const base = first.get(sort) ?? busy;
  first.set(sort, base);
  const grown = base === busy ? "" : `  ${(busy / base).toFixed(1)} times the first of its kind`;
  console.log(
    `  ${name.padEnd(58)} ${busy.toFixed(1).padStart(9)}` +
      (aim === undefined ? "" : `  (aim: ` + `under ${aim}${busy < aim ? ", met" : ", missed"})`) +
      `${grown}${more === undefined ? "" : `  ${more}`}`,
  );
}
