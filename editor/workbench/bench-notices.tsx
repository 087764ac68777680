// Short messages over the page; those of trouble stay until they are closed.
import { useEffect, useSyncExternalStore } from "react";
import type { WorkbenchStore } from "./store/document.ts";

export function Notices({ bench: store }: { readonly bench: WorkbenchStore }) {
  const { notices } = useSyncExternalStore(store.subscribe, store.state);
  const newest = notices.at(-1);
  useEffect(() => {
    if (!newest || newest.weight === "trouble") return undefined;
    const clock = setTimeout(() => store.dismiss(newest.id), 5000);
    return () => clearTimeout(clock);
  }, [store, newest]);
  return (
    <div className="notices" role="status" aria-live="polite">
      {notices.map((notice) => (
        <p key={notice.id} className={`notice ${notice.weight}`}>
          <span>{notice.says}</span>
          <button type="button" className="button bare" onClick={() => store.dismiss(notice.id)}>
            Close
          </button>
        </p>
      ))}
    </div>
  );
}
