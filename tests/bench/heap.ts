// Peak heap of reading the 5,000-line book, in a process that has done nothing else (run with --expose-gc).
import { readBook } from "../../engine/index.ts";
import { bigBook } from "./big-book.ts";

const collect = (globalThis as { gc?: () => void }).gc ?? (() => undefined);
const text = bigBook(1);
collect();
const before = process.memoryUsage();
// What the heap has grown to is not given back before a collection: right after reading it is the peak,
// garbage and all.
const first = readBook(text);
const peak = process.memoryUsage();
collect();
const kept = process.memoryUsage();
const mb = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(0)} MB`;
console.log("\nMemory, 5,000-line book, a process of its own");
console.log(
  `  peak heap, garbage and all   ${mb(peak.heapTotal)}, of it used ${mb(peak.heapUsed)}   aim ` +
    `under 150 MB: ${peak.heapTotal + peak.arrayBuffers < 150 * 1024 * 1024 ? "met" : "missed"}`,
);
console.log(
  `  kept after collecting        ${mb(kept.heapUsed - before.heapUsed)} for ${first.rows.length} statements`,
);
