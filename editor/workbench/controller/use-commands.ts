// Listens for the keys of the commands over the whole page.
import { useEffect } from "react";
import type { BenchCommands } from "../commands.ts";
import { commandFor } from "../commands.ts";
import { useEvent } from "../use-event.ts";

export function useCommands(commands: BenchCommands): void {
  const press = useEvent((event: KeyboardEvent) => {
    if (event.defaultPrevented) return;
    const command = commandFor(event);
    if (!command) return;
    event.preventDefault();
    command.effect(commands);
  });
  useEffect(() => {
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [press]);
}
