// What lists mean over any domain: as many rows as any job can have, each counted only where the job has it.
import { whole } from "../engine/analysis/support/fraction.ts";
import type { Value } from "./domain.ts";
import { type Scope, amountOf } from "./meaning.ts";
import type { Gathered, List } from "./syntax.ts";

export interface Rows<B, N> {
  readonly count: Value<B, N>;
  readonly columns: ReadonlyMap<string, Readonly<Record<Exclude<Gathered, "count">, Value<B, N>>>>;
}

interface Row<B, N> {
  readonly there: B;
  readonly columns: ReadonlyMap<string, Value<B, N>>;
}

export function gathered<B, N>(
  list: List,
  scope: Scope<B, N>,
  named: (one: Value<B, N>) => Value<B, N>,
): Rows<B, N> {
  const { on, logic } = scope;
  const count = amountOf(list.count, scope);
  const rows: Row<B, N>[] = [];
  for (let i = 1; i <= list.most; i++) {
    const counter = logic.sure(on.number(whole(BigInt(i))));
    const above =
      rows.at(-1)?.columns ?? new Map(list.columns.map((one) => [one.name, nothing(scope)] as const));
    const amounts = new Map(scope.amounts);
    const columns = new Map<string, Value<B, N>>();
    for (const column of list.columns) {
      const value = named(amountOf(column.rule, { ...scope, amounts, counter, above }));
      columns.set(column.name, value);
      amounts.set(column.name, value);
    }
    rows.push({ there: on.not(on.below(count.value, counter.value)), columns });
  }
  return {
    count: {
      ...count,
      value: on.pick(on.below(count.value, on.number(whole(0n))), on.number(whole(0n)), count.value),
    },
    columns: new Map(list.columns.map((one) => [one.name, columnOf(one.name, count, rows, scope)] as const)),
  };
}

/** The first row has none above it. */
const nothing = <B, N>({ on }: Scope<B, N>): Value<B, N> => ({
  known: on.no,
  impossible: on.yes,
  value: on.number(whole(0n)),
});

/**
 * A row without a value is one too few for all that look at every row; the first that lacks one says how it
 * lacks it.
 */
function columnOf<B, N>(
  name: string,
  count: Value<B, N>,
  rows: readonly Row<B, N>[],
  scope: Scope<B, N>,
): Readonly<Record<Exclude<Gathered, "count">, Value<B, N>>> {
  const { on } = scope;
  const cells = rows.map((row) => ({ there: row.there, held: row.columns.get(name)! }));
  const zero = on.number(whole(0n));
  let fine = on.yes;
  let broken = on.no;
  for (const { there, held } of cells) {
    broken = on.or(broken, on.and(fine, there, held.impossible));
    fine = on.and(fine, on.or(on.not(there), held.known));
  }
  const empty = cells.length === 0 ? on.yes : on.not(cells[0]!.there);
  const whole_ = (value: N, fault: B): Value<B, N> => ({
    known: on.and(count.known, fine, on.not(fault)),
    impossible: on.or(count.impossible, on.and(count.known, on.or(broken, on.and(fine, fault)))),
    value,
  });
  const extreme = (does: "largest" | "smallest"): N =>
    cells.reduce((best, { there, held }, i) => {
      if (i === 0) return held.value;
      return on.pick(there, on.extreme(does, best, held.value), best);
    }, zero);
  const single = (held: Value<B, N>): Value<B, N> => ({
    known: on.and(count.known, on.not(empty), held.known),
    impossible: on.or(count.impossible, on.and(count.known, on.or(empty, held.impossible))),
    value: held.value,
  });
  const last = cells.reduce<Value<B, N>>(
    (before, { there, held }) => ({
      known: on.pickTruth(there, held.known, before.known),
      impossible: on.pickTruth(there, held.impossible, before.impossible),
      value: on.pick(there, held.value, before.value),
    }),
    nothing(scope),
  );
  return {
    sum: whole_(
      cells.reduce((sum, { there, held }) => on.add(sum, on.pick(there, held.value, zero)), zero),
      on.no,
    ),
    largest: whole_(extreme("largest"), empty),
    smallest: whole_(extreme("smallest"), empty),
    first: single(cells[0]?.held ?? nothing(scope)),
    last: single(last),
  };
}
