// The part of the sheet that is seen: its size, how far it is scrolled, and whether it is being printed.
import { useLayoutEffect, useRef, useState } from "react";
import type { RefObject } from "react";
import { usePrinting } from "./use-printing.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

export interface SheetWindow {
  readonly scroller: RefObject<HTMLDivElement | null>;
  readonly size: Size;
  readonly scrollTop: number;
  readonly setScrollTop: (top: number) => void;
  /** On paper every row is drawn. */
  readonly printing: boolean;
}

export function useSheetWindow(): SheetWindow {
  const scroller = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<Size>({ width: 900, height: 600 });
  const [scrollTop, setScrollTop] = useState(0);
  const printing = usePrinting();
  useLayoutEffect(() => {
    const drawn = scroller.current;
    if (!drawn) return undefined;
    const measure = (): void => setSize({ width: drawn.clientWidth, height: drawn.clientHeight });
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(drawn);
    return () => watch.disconnect();
  }, []);
  return { scroller, size, scrollTop, setScrollTop, printing };
}
