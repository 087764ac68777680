// What the drawings of a book show for one job: each argument with its value in SI and as it is written, the
// rows of lists, the marks of a cup and the steps on a time line. Where they go on the paper is decided
// elsewhere.
import { LENGTH, MASS, VOLUME, sameDimension } from "../../../core/dimension.ts";
import { writeValue } from "../../../core/format.ts";
import { type Type, quantity } from "../../../core/type.ts";
import { type Unit, readUnit } from "../../../core/unit.ts";
import type { JobView, PictureShown, PictureValue, Shown, UnitSystem } from "../../../core/view.ts";
import type { Block, PictureArgument, Plan } from "../plan/plan.ts";
import { isKnown } from "./frame.ts";
import { shown, textOf } from "./show.ts";
import type { Evaluation } from "./evaluate.ts";

type Row = NonNullable<PictureValue["rows"]>[number];

/** More rows than this are left out but for the last: nobody could read such a drawing. */
const MAX_PICTURE_ROWS = 400;

/**
 * Drawings whose condition holds; one whose condition is not known yet is left out. `view` is the same job as
 * it is shown otherwise.
 */
export function picturesOf(
  evaluation: Evaluation,
  units: UnitSystem,
  view: JobView,
): readonly PictureShown[] {
  return drawn(evaluation.plan).flatMap((block) => {
    const { statement } = block.entry;
    if (statement.body.keyword !== "picture" || (block.when >= 0 && evaluation.frame.num[block.when] !== 1))
      return [];
    const shape = statement.body.shape.text;
    const values = block.pictures.map((argument) => argumentValue(evaluation, argument, units));
    const more =
      shape === "cup"
        ? [marksOf(evaluation, block.pictures, units)]
        : shape === "timeline"
          ? [stepsOf(evaluation, view)]
          : [];
    return [
      {
        id: block.id,
        shape,
        title: textOf(evaluation, block.texts.title, units) ?? "",
        values: [...values, ...more],
      },
    ];
  });
}

const known = new WeakMap<Plan, readonly Block[]>();

/** The plan's drawings that can be drawn, in book order. */
function drawn(plan: Plan): readonly Block[] {
  const before = known.get(plan);
  if (before !== undefined) return before;
  const found = plan.checked.entries.flatMap((entry) => {
    const block = entry.statement.body.keyword === "picture" ? plan.byId.get(entry.id) : undefined;
    return block === undefined || entry.checked.faults.length > 0 ? [] : [block];
  });
  known.set(plan, found);
  return found;
}

function argumentValue(
  evaluation: Evaluation,
  { name: argument, of, value, slot }: PictureArgument,
  units: UnitSystem,
): PictureValue {
  const { frame } = evaluation;
  const { register, type } = value;
  if (type.is !== "list") {
    const one = shown(evaluation, value, of, units);
    return one.state === "known" && type.is !== "text" && type.is !== "kind"
      ? { ...one, argument, si: frame.num[register]! }
      : { ...one, argument };
  }
  const rows = frame.lists[slot];
  const one = shown(evaluation, { ...value, type: { is: "count" } }, of, units);
  if (one.state !== "known" || rows === undefined) return { ...one, argument };
  const count = Math.min(rows.count, MAX_PICTURE_ROWS);
  const cells = Array.from({ length: count }, (_, i): Row => {
    const at = i === count - 1 ? rows.count - 1 : i;
    return Object.fromEntries(
      type.columns.flatMap((column, c) => {
        const si = rows.columns[c]![at]!;
        return si === si && column.type.is !== "text" && column.type.is !== "kind"
          ? [[column.name, { si, text: writeValue(si, column.type, column.unit, units) }]]
          : [];
      }),
    );
  });
  return {
    name: of,
    argument,
    state: "known",
    text: String(rows.count),
    value: null,
    unit: null,
    rows: cells,
  };
}

// ───────────── cups ─────────────

/** In the order in which they go into the cup. */
const PARTS = ["resin", "filler", "hardener", "total"] as const;

/**
 * One row for each part: its amount, what is in the cup together with it (of the same measure as the first
 * part), its volume where a density says it, and the height of the fill where the cup's width is given. The
 * cup is taken as straight-sided.
 */
function marksOf({ frame }: Evaluation, given: readonly PictureArgument[], units: UnitSystem): PictureValue {
  const find = (name: string) => given.find((one) => one.name === name);
  const number = (argument: PictureArgument | undefined) =>
    argument !== undefined && isKnown(frame, argument.value.register)
      ? frame.num[argument.value.register]!
      : undefined;
  const only = PARTS.filter(
    (part) =>
      find(part) !== undefined &&
      (part !== "total" || !given.some((one) => one.name === "resin" || one.name === "filler")),
  );
  const across = number(find("across"));
  const first = find(only[0] ?? "total")?.value;
  let together: number | undefined = 0;
  let filled: number | undefined = 0;
  const rows: Row[] = [];
  for (const [i, part] of only.entries()) {
    const { value } = find(part)!;
    const amount = number(find(part));
    if (amount === undefined || first === undefined)
      return { name: "marks", argument: "marks", state: "unknown", text: "", value: null, unit: null };
    const density = number(find(`${part}-density`));
    const volume = dimensionOf(value.type, VOLUME)
      ? amount
      : density !== undefined && density > 0
        ? amount / density
        : undefined;
    together = together !== undefined && sameMeasure(value.type, first.type) ? together + amount : undefined;
    filled = filled !== undefined && volume !== undefined ? filled + volume : undefined;
    const height =
      filled !== undefined && across !== undefined && across > 0
        ? filled / ((Math.PI / 4) * across ** 2)
        : undefined;
    rows.push({
      part: { si: i, text: part },
      amount: cell(amount, value.type, value.unit, units),
      ...(together !== undefined ? { together: cell(together, first.type, first.unit, units) } : {}),
      ...(volume !== undefined ? { volume: cell(volume, quantity(VOLUME), unitOf("mL"), units) } : {}),
      ...(filled !== undefined ? { filled: cell(filled, quantity(VOLUME), unitOf("mL"), units) } : {}),
      ...(height !== undefined ? { height: cell(height, quantity(LENGTH), unitOf("mm"), units, 1e-3) } : {}),
    });
  }
  return {
    name: "marks",
    argument: "marks",
    state: "known",
    text: String(rows.length),
    value: null,
    unit: null,
    rows,
  };
}

/** Volumes to a tenth of a millilitre and heights to a millimetre: nobody reads more off a cup. */
function cell(
  si: number,
  type: Type,
  unit: Unit | undefined,
  units: UnitSystem,
  step = 1e-7,
): { readonly si: number; readonly text: string } {
  const rounded = dimensionOf(type, MASS) ? si : Number((Math.round(si / step) * step).toPrecision(12));
  return { si, text: writeValue(rounded, type, unit, units) };
}

const dimensionOf = (type: Type, dimension: typeof LENGTH): boolean =>
  type.is === "quantity" && sameDimension(type.dimension, dimension);
const sameMeasure = (a: Type, b: Type): boolean =>
  a.is === "quantity" && b.is === "quantity" && sameDimension(a.dimension, b.dimension);

function unitOf(text: string): Unit | undefined {
  const unit = readUnit({ text, apart: false });
  return "symbol" in unit ? unit : undefined;
}

// ───────────── the time line ─────────────

/**
 * The steps one after the other: when each begins, how long it takes and how long is waited after it, in
 * seconds.
 */
function stepsOf({ frame, plan }: Evaluation, view: JobView): PictureValue {
  const of: Pick<Shown, "name" | "value" | "unit"> & { readonly argument: string } = {
    name: "steps",
    argument: "steps",
    value: null,
    unit: null,
  };
  if (view.state !== "ready") return { ...of, state: "unknown", text: "" };
  let from = 0;
  const seconds = (register: number) =>
    register >= 0 && isKnown(frame, register) ? Math.max(0, frame.num[register]!) : 0;
  const rows = view.steps.map((line, i): Row => {
    const block = plan.byId.get(line.id);
    const [takes, waits] = [seconds(block?.takes ?? -1), seconds(block?.waits ?? -1)];
    const row: Row = {
      step: { si: i + 1, text: line.name ?? line.id },
      says: { si: i + 1, text: line.text },
      from: { si: from, text: "" },
      takes: { si: takes, text: line.takes ?? "" },
      waits: { si: waits, text: line.waits ?? "" },
    };
    from += takes + waits;
    return row;
  });
  return { ...of, state: "known", text: String(rows.length), rows };
}
