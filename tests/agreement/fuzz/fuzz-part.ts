// One worker of `npm run fuzz`, in a process of its own: every so many seeds it tells how far it is.
import type { Message } from "./fuzz.ts";
import { type Fault, session } from "./sessions.ts";
import { sources } from "./sources.ts";

const [from, step, until] = process.argv.slice(2).map(Number) as [number, number, number];
/** Sessions between two messages. */
const AT_ONCE = 50;

const tell = (told: Message): Promise<void> => new Promise((done) => void process.send!(told, () => done()));
const texts = sources();
await tell({ seed: from - step, cases: 0, faults: [] });
for (let seed = from; Date.now() < until; ) {
  let cases = 0;
  const faults: Fault[] = [];
  for (let i = 0; i < AT_ONCE; i++, seed += step) {
    const made = session(seed, texts);
    cases += made.cases;
    faults.push(...made.faults);
  }
  await tell({ seed: seed - step, cases, faults });
}
process.disconnect();
