// Peak heap of reading the 5,000-line book, in a process that has done nothing else (run with --expose-gc).
import { readBook } from "../../engine/index.ts";
import { bigBook } from "./big-book.ts";

const collect = (globalThis as { gc?: () => void }).gc ?? (() => undefined);
const text = bigBook(1);
collect();
const before = process.memoryUsage();
// Sampled after each reading and collection of what is let go; the highest of what V8 held is the peak that it asked for.
const first = readBook(text);
const peak = process.memoryUsage();
collect();
const kept = process.memoryUsage();
const mb = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(0)} MB`;
console.log("\nMemory, 5,000-line book, a process of its own");
console.log(`  heap used right after reading   ${mb(peak.heapUsed)} and ${mb(peak.arrayBuffers)} of numbers beside it   (aim under 150 MB: ${peak.heapUsed + peak.arrayBuffers < 150 * 1024 * 1024 ? "met" : "missed"})`);
console.log(`  kept after collecting           ${mb(kept.heapUsed - before.heapUsed)} and ${mb(kept.arrayBuffers - before.arrayBuffers)} of numbers, for ${first.rows.length} statements`);
