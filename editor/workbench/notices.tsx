// Short messages over the page; those of trouble stay until they are closed.
import { useEffect, useSyncExternalStore } from "react";
import type { Bench } from "./store/document.ts";

export function Notices({ bench }: { readonly bench: Bench }) {
  const { notices } = useSyncExternalStore(bench.subscribe, bench.state);
  const newest = notices.at(-1);
  useEffect(() => {
    if (!newest || newest.weight === "trouble") return undefined;
    const clock = setTimeout(() => bench.dismiss(newest.id), 5000);
    return () => clearTimeout(clock);
  }, [bench, newest]);
  return (
    <div className="notices" role="status" aria-live="polite">
      {notices.map((notice) => (
        <p key={notice.id} className={`notice ${notice.weight}`}><span>{notice.says}</span><button type="button" className="button bare" onClick={() => bench.dismiss(notice.id)}>Close</button></p>
      ))}
    </div>
  );
}
