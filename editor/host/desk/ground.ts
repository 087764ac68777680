// The ground that a book stands on: the sealed editions on this shelf that it names, and those that they name.
import type { BookRef } from "../../../core/record.ts";
import type { Shelf } from "../shelf/shelf.ts";
import { textByPrint } from "../shelf/texts.ts";
import type { Desk } from "./desk.ts";
import type { Checked } from "./shapes.ts";

export interface Ground { readonly checked: Checked; readonly texts: readonly string[]; readonly refs: readonly BookRef[] }

/** Books that may stand below one another. */
const deepest = 20;

/** Reads the book with everything at hand that it stands on; what is not on the shelf is among its faults, as the engine words it. */
export async function onItsGround(shelf: Shelf, desk: Desk, text: string): Promise<Ground> {
  const under = new Map<string, { readonly text: string; readonly ref: BookRef }>();
  for (let depth = 0; ; depth += 1) {
    const texts = [...under.values()].map((one) => one.text);
    const checked = await desk.ask({ asks: "check", text, under: texts });
    let more = false;
    for (const { name, edition, here } of checked.stands) {
      const key = `${name} ${edition ?? ""}`;
      if (here || under.has(key) || depth >= deepest) continue;
      const row = await shelf.db.selectFrom("editions").innerJoin("texts", "texts.print", "editions.print").select(["editions.number", "editions.print", "texts.text"]).where("book", "=", name).$if(edition !== undefined, (q) => q.where("number", "=", edition!)).orderBy("number", "desc").limit(1).executeTakeFirst();
      if (row === undefined) continue;
      under.set(key, { text: row.text, ref: { name, edition: row.number, print: row.print, sealed: true } });
      more = true;
    }
    if (!more) return { checked, texts, refs: [...under.values()].map((one) => one.ref) };
  }
}

/** The texts under a book of this print: for a sealed edition exactly those that it was sealed upon. */
export async function textsUnder(shelf: Shelf, desk: Desk, print: string, text: string): Promise<readonly string[]> {
  const sealed = await shelf.db.selectFrom("editions").select("stands").where("print", "=", print).orderBy("at").limit(1).executeTakeFirst();
  if (sealed === undefined) return (await onItsGround(shelf, desk, text)).texts;
  const texts = await Promise.all((JSON.parse(sealed.stands) as BookRef[]).map((ref) => textByPrint(shelf, ref.print)));
  return texts.filter((one) => one !== undefined);
}
