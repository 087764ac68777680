// Jobs as tablets record them, with seeded chance: invented titles, lots and people.
import type { BookRef, CardRecord, JobEntry } from "../../../../core/record.ts";
import type { Chance } from "../../../support/chance.ts";

/** A UUID of seeded chance. */
export function uuid(chance: Chance): string {
  const hex = Array.from({ length: 32 }, () => chance.whole(16).toString(16));
  hex[12] = "4";
  hex[16] = "89ab"[chance.whole(4)]!;
  const text = hex.join("");
  return (
    `${text.slice(0, 8)}-${text.slice(8, 12)}-${text.slice(12, 16)}` +
    `-${text.slice(16, 20)}-${text.slice(20)}`
  );
}

const panels = [
  "front wing",
  "rear bumper",
  "bonnet",
  "tailgate skin",
  "side skirt",
  "roof spoiler",
  "cargo door",
  "wheel arch",
];
const used = [
  "lamination resin",
  "300 g cloth",
  "450 g mat",
  "hardener paste",
  "epoxy adhesive",
  "fairing filler",
];

/** The entries of one job from beginning to signing, in the order in which they were made. */
export function jobEntries(
  chance: Chance,
  book: BookRef,
  begun: number,
  card?: CardRecord,
  answers: Readonly<Record<string, string>> = { thickness: `${2 + chance.whole(6)} mm` },
): JobEntry[] {
  const job = uuid(chance);
  const device = `tablet ${1 + chance.whole(50)}`;
  let at = begun;
  const entries: JobEntry[] = [];
  const add = (deed: object): void => {
    at += 1000 + chance.whole(60_000);
    entries.push({ id: uuid(chance), job, at, device, ...deed } as JobEntry);
  };
  add({ does: "begin", book, title: `${chance.pick(panels)}, order ${10_000 + chance.whole(90_000)}` });
  for (const [ask, text] of Object.entries(answers)) {
    if (chance.odds(0.3)) add({ does: "answer", ask, text: "12 mm" });
    add({ does: "answer", ask, text });
  }
  add({ does: "tick", step: "step clean", text: "Clean 300 mm around" });
  for (let i = 0, count = 1 + chance.whole(3); i < count; i += 1)
    add({
      does: "used",
      line: `u${i}`,
      what: chance.pick(used),
      amount: `${10 + chance.whole(400)} g`,
      lot: `LOT-${chance.whole(100_000)}`,
    });
  add({ does: "note", line: "n1", text: "checked by tapping" });
  if (card !== undefined)
    add({ does: "sign", name: chance.pick(["R. Vane", "M. Okafor-Lind", "T. Hale"]), card });
  return entries;
}

export function shuffled<T>(chance: Chance, from: readonly T[]): T[] {
  const out = [...from];
  for (let i = out.length - 1; i > 0; i -= 1) {
    const j = chance.whole(i + 1);
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}
