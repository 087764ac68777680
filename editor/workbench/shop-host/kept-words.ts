// Where the open book is kept, in the few words of the title block.
import type { WorkbenchState } from "../store/document.ts";
import type { ShopState } from "../store/shop.ts";
import { writes } from "../store/shop.ts";

export function keptWords(
  state: Pick<WorkbenchState, "mine" | "kept">,
  shop: Pick<ShopState, "host" | "draft" | "you">,
): string {
  if (!state.mine) return "Read only here";
  switch (state.kept) {
    case "keeping":
      return "Keeping…";
    case "not kept":
      return "Not kept: save to a file";
    case "kept":
      return onHost(shop);
  }
}

function onHost({ host, draft, you }: Pick<ShopState, "host" | "draft" | "you">): string {
  switch (host) {
    case "unknown":
    case "none":
      return "Kept in this browser";
    case "away":
      return "Kept in this browser; the host does not answer";
    case "refused":
      return "Kept in this browser; sign in to keep it on the host";
    case "there":
      break;
  }
  if (draft === undefined)
    return you !== undefined && !writes(you)
      ? "Kept in this browser; only a lead saves to the host"
      : "Kept in this browser";
  switch (draft.is) {
    case "opening":
    case "none":
      return "Kept in this browser; not on the host yet";
    case "kept":
      return `Kept on the host, version ${draft.version}`;
    case "keeping":
      return "Keeping on the host…";
    case "waiting":
      return "Kept in this browser; the host does not answer";
    case "apart":
      return "Kept in this browser; the host has another draft";
    case "clash":
      return "Kept in this browser; both changed a statement";
    case "refused":
      return "Kept in this browser; the host does not take it";
    case "signed-out":
      return "Kept in this browser; sign in to keep it on the host";
  }
}
