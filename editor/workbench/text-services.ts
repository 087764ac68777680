// What the text face asks of the engine, always about the text as it stands, and what it hands back.
import type { Bench } from "./store/document.ts";
import { renamedDesk } from "./renaming.ts";
import type { TextServices } from "./text/services.ts";
import type { Desk } from "../client/storage/stored-work.ts";

export interface TextSide {
  readonly services: TextServices;
  /** Takes what was typed in the text face. A rename made there also reaches the jobs' answers. */
  onEdit(text: string): void;
}

export function textSide(bench: Bench): TextSide {
  const text = (): string => bench.state().desk.text;
  let renamed: Desk | undefined;
  return {
    services: {
      colour: async (piece) => (await bench.ask((engine) => engine.colour(piece))) ?? [],
      offers: async (offset) => (await bench.ask((engine) => engine.offers(text(), offset))) ?? { at: { start: offset, end: offset }, offers: [] },
      about: (offset) => bench.ask((engine) => engine.about(text(), offset)),
      places: (offset) => bench.ask((engine) => engine.places(text(), offset)),
      rename: async (offset, to) => {
        const found = await renamedDesk(bench, offset, to);
        if ("refused" in found) return found;
        renamed = found.desk;
        return { edits: found.edits };
      },
    },
    onEdit: (next) => {
      if (renamed?.text === next) bench.setDesk(renamed);
      else bench.setText(next, "typing");
      renamed = undefined;
    },
  };
}
