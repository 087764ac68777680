// Listens for the keys of the commands over the whole page.
import { useEffect, useRef } from "react";
import type { BenchDoes } from "./commands.ts";
import { commandFor } from "./commands.ts";

export function useCommands(does: BenchDoes): void {
  const latest = useRef(does);
  latest.current = does;
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented) return;
      const command = commandFor(event);
      if (!command) return;
      event.preventDefault();
      command.effect(latest.current);
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}
