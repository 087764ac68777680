// What the text face asks of the engine, always about the text as it stands, and what it hands back.
import type { WorkbenchStore } from "../store/document.ts";
import { renamedDocument } from "../renaming.ts";
import type { TextServices } from "../text/services.ts";
import type { Document } from "../../client/storage/stored-work.ts";

export interface TextController {
  readonly services: TextServices;
  /** Takes what was typed in the text face. A rename made there also reaches the jobs' answers. */
  onEdit(text: string): void;
}

export function textController(store: WorkbenchStore): TextController {
  const text = (): string => store.state().desk.text;
  let renamed: Document | undefined;
  return {
    services: {
      colour: async (piece) => (await store.ask((engine) => engine.colour(piece))) ?? [],
      offers: async (offset) =>
        (await store.ask((engine) => engine.offers(text(), offset))) ?? {
          at: { start: offset, end: offset },
          offers: [],
        },
      about: (offset) => store.ask((engine) => engine.about(text(), offset)),
      places: (offset) => store.ask((engine) => engine.places(text(), offset)),
      rename: async (offset, to) => {
        const found = await renamedDocument(store, offset, to);
        if ("refused" in found) return found;
        renamed = found.desk;
        return { edits: found.edits };
      },
    },
    onEdit: (next) => {
      if (renamed?.text === next) store.setDesk(renamed);
      else store.setText(next, "typing");
      renamed = undefined;
    },
  };
}
