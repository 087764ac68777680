// How a page has maps and charts worked: given by the page, used by the drawings, which are fetched later
// than the page.
import { createContext } from "react";
import type { PictureShown } from "../../../core/view.ts";
import type { WorkedDrawing } from "../../client/engine/messages.ts";

/** Works what a map or a chart is drawn from; a page without it shows no maps and charts. */
export type WorkDrawing = (picture: PictureShown) => Promise<WorkedDrawing | undefined>;
export const WorkDrawingContext = createContext<WorkDrawing | undefined>(undefined);
