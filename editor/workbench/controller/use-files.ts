// Files dropped on the page or picked, and the page's last moment.
import { useEffect } from "react";
import type { WorkbenchStore } from "../store/document.ts";
import { MAX_BOOK_BYTES } from "../../../core/limits.ts";
import { textOfFile, tooLarge } from "../store/files.ts";

export function useFiles(store: WorkbenchStore): void {
  useEffect(() => {
    const over = (event: DragEvent): void => {
      if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
    };
    const drop = (event: DragEvent): void => {
      const file = event.dataTransfer?.files[0];
      if (!file) return;
      event.preventDefault();
      void openFile(store, file);
    };
    const going = (): void => store.lastMoment();
    const hidden = (): void => {
      if (document.visibilityState === "hidden") store.lastMoment();
    };
    window.addEventListener("dragover", over);
    window.addEventListener("drop", drop);
    window.addEventListener("pagehide", going);
    document.addEventListener("visibilitychange", hidden);
    return () => {
      window.removeEventListener("dragover", over);
      window.removeEventListener("drop", drop);
      window.removeEventListener("pagehide", going);
      document.removeEventListener("visibilitychange", hidden);
    };
  }, [store]);
}

export async function openFile(store: WorkbenchStore, file: File): Promise<void> {
  if (file.size > MAX_BOOK_BYTES) {
    store.tell(tooLarge(file.name, file.size), "trouble");
    return;
  }
  const opened = textOfFile(file.name, new Uint8Array(await file.arrayBuffer()));
  if ("refused" in opened) store.tell(opened.refused, "trouble");
  else await store.openText(opened.text, file.name.replace(/\.[^.]*$/, ""));
}
