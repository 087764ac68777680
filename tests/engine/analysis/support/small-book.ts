// Small random books of the shop: a few asks with a coarse resolution, a chosen word, steps, a caution,
// perhaps a stop.
import { type Book, readBook } from "../../../../engine/index.ts";
import type { Chance } from "../../../support/chance.ts";

export interface Asked {
  readonly name: string;
  readonly values: readonly string[];
  readonly words: boolean;
}
export interface Small {
  readonly book: Book;
  readonly text: string;
  readonly asks: readonly Asked[];
}

/** A book with steps, stops, cautions and a chosen word over a few asks with a coarse resolution. */
export function smallBook(by: Chance): Small {
  const lines = [
    'kind way\n    sand "Sand"\n    fill "Fill"\n    laminate "Laminate"',
    'kind fibre\n    mat "Mat"\n    cloth "Cloth"',
  ];
  const asks: Asked[] = [];
  const lengths: string[] = [];
  for (let i = 0; i < 1 + by.whole(3); i++) {
    const step = by.pick([1, 0.5]);
    const high = by.pick([20, 40]);
    const name = `long-${i}`;
    lines.push(`ask ${name} in mm, 0 to ${high}\n    measured to ${step} mm`);
    asks.push({
      name,
      words: false,
      values: Array.from({ length: high / step + 1 }, (_, n) => `${n * step} mm`),
    });
    lengths.push(name);
  }
  if (by.odds(0.6)) {
    lines.push("ask made of fibre");
    asks.push({ name: "made", words: true, values: ["mat", "cloth"] });
  }
  if (by.odds(0.4)) {
    lines.push("ask wet of yes-no");
    asks.push({ name: "wet", words: true, values: ["no", "yes"] });
  }
  const some = () => by.pick(lengths);
  const number = () => by.pick([3, 7, 10, 12.5, 19]);
  const truth = (): string =>
    by.pick([
      () => `${some()} ${by.pick(["<", "<=", ">", ">="])} ${number()} mm`,
      () => `${some()} + ${some()} > ${number() * 2} mm`,
      () => `${some()} is ${number() / 2} mm to under ${number() + 10} mm`,
      ...(asks.some((one) => one.name === "made") ? [() => "made is cloth"] : []),
      ...(asks.some((one) => one.name === "wet") ? [() => "wet", () => "not wet"] : []),
    ])();
  for (let i = 0; i < 1 + by.whole(2); i++) {
    lines.push(
      `figure made-${i} in mm = ` +
        by.pick([
          `${some()} rounded up to 5 mm`,
          `${some()} * ${some()} / 10 mm`,
          `${some()} if ${truth()}, otherwise ${number()} mm`,
        ]),
    );
    lengths.push(`made-${i}`);
  }
  lines.push(
    `chart method by ${asks[0]!.name} gives way\n    ${asks[0]!.name} | method\n` +
      "    under 5 mm | sand\n    5 mm to 12 mm | fill\n    over 12 mm | laminate\n" +
      "    from practice",
  );
  lines.push(
    `step first "First" when ${truth()}`,
    `step last "Last"`,
    `caution mind "Mind" when ${truth()} and ${truth()}`,
  );
  if (by.odds(0.6)) lines.push(`stop halt "Halt" when ${truth()} and ${truth()}`);
  return { book: readBook(lines.join("\n")), text: lines.join("\n"), asks };
}
