// English words of what is fetched after the first question: the drawings and what is done at the panel.
import { enDrawings } from "./en/drawings.ts";
import { enMixing } from "./en/mixing.ts";
import { enRecord } from "./en/record.ts";

export const enLate = {
  ...enDrawings,
  ...enMixing,
  ...enRecord,
} as const;
