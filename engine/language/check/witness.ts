// A stretch of a condition, written as a shop would write the cell of a chart.
import type { Part } from "../../../core/box.ts";
import { writeValue } from "../../../core/format.ts";
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";

export function writePart(
  part: Part,
  { type, unit }: { readonly type: Type; readonly unit: Unit | undefined },
): string {
  switch (part.is) {
    case "any":
      return "any";
    case "words":
      return part.words
        .map((word) => (type.is === "kind" ? type.words[word] : word ? "yes" : "no"))
        .join(", ");
    case "line": {
      const write = (value: number) => writeValue(value, type, unit);
      const { low, lowIn, high, highIn } = part;
      if (low === -Infinity && high === Infinity) return "any";
      if (low === -Infinity) return highIn ? `up to ${write(high)}` : `under ${write(high)}`;
      if (high === Infinity) return lowIn ? `${write(low)} and over` : `over ${write(low)}`;
      if (low === high) return write(low);
      return `${lowIn ? "" : "over "}${write(low)} to ${highIn ? "" : "under "}${write(high)}`;
    }
  }
}
