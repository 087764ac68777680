// Another name for the name under the cursor, everywhere at once. A refusal is said
// here and nothing is changed.
import { useEffect, useRef, useState } from "react";
import type { Renamed } from "./services.ts";

export interface RenameLineProps {
  readonly name: string;
  /** In how many places it stands. */
  readonly places: number;
  rename(to: string): Promise<Renamed>;
  /** Called with the outcome that was not refused. */
  onRenamed(renamed: Extract<Renamed, { edits: unknown }>): void;
  onClose(): void;
}

export function RenameLine({ name, places, rename, onRenamed, onClose }: RenameLineProps) {
  const [to, setTo] = useState(name);
  const [refused, setRefused] = useState("");
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);

  async function submit(): Promise<void> {
    const wanted = to.trim();
    if (wanted === name) return onClose();
    const renamed = await rename(wanted).catch(
      (): Renamed => ({ refused: "The book could not be read just now. Try again." }),
    );
    if ("refused" in renamed) setRefused(renamed.refused);
    else onRenamed(renamed);
  }

  return (
    <form
      className="text-line rename-line"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
      onKeyDown={(event) => event.key === "Escape" && onClose()}
    >
      <label className="text-line-ask">
        <span className="label">
          Another name for {name}, in {places} {places === 1 ? "place" : "places"}
        </span>
        <input
          ref={field}
          className="field rule"
          value={to}
          aria-invalid={refused !== ""}
          onChange={(event) => {
            setTo(event.target.value);
            setRefused("");
          }}
          spellCheck={false}
          autoComplete="off"
        />
      </label>
      <span className="text-line-says" role="status">
        {refused}
      </span>
      <button type="submit" className="button main" disabled={to.trim() === ""}>
        Rename
      </button>
      <button type="button" className="button bare" onClick={onClose}>
        Cancel
      </button>
    </form>
  );
}
