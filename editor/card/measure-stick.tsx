// A measuring stick over the range that a question takes, with the typed value on it: a slip by a factor of
// ten is seen before it is sent.
import { writeNumber } from "./typed-number.ts";

export function MeasureStick(props: {
  /** Ends of the range and the value, all in `unit`; no value, no arrow. */
  readonly low: number;
  readonly high: number;
  readonly value: number | undefined;
  readonly unit: string;
}) {
  const { low, high, value } = props;
  const span = high - low;
  if (!(span > 0)) return null;
  const percent = (at: number) => `${(Math.min(Math.max((at - low) / span, 0), 1) * 100).toFixed(3)}%`;
  const out = value !== undefined && (value < low - span * 1e-6 || value > high + span * 1e-6);
  const step = tickStep(span);
  return (
    <div className="stick" aria-hidden="true">
      <div className="stick-above">
        {value !== undefined && (
          <>
            <span className="stick-run" style={{ width: percent(value) }} />
            <span className={`stick-at${out ? " is-out" : ""}`} style={{ left: percent(value) }} />
          </>
        )}
      </div>
      <div className="stick-wood">
        <div className="stick-scale">
          {ticks(low, high, step / 5).map((at) => {
            const labelled = isMultiple(at, step);
            return (
              <i
                key={at}
                className={labelled ? "stick-tick is-long" : "stick-tick"}
                style={{ left: percent(at) }}
              >
                {labelled && <b>{writeNumber(at, 6)}</b>}
              </i>
            );
          })}
        </div>
      </div>
    </div>
  );
}

/** A step of 1, 2 or 5 times a power of ten that gives four to ten numbered ticks. */
export function tickStep(span: number): number {
  const power = 10 ** Math.floor(Math.log10(span / 5));
  const rough = span / 5 / power;
  return power * (rough >= 5 ? 5 : rough >= 2 ? 2 : 1);
}

/** Multiples of `step` from `low` to `high`, ends included. */
export function ticks(low: number, high: number, step: number): readonly number[] {
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, place) =>
    Number(((first + place) * step).toPrecision(12)),
  );
}

const isMultiple = (at: number, step: number): boolean => Math.abs(at / step - Math.round(at / step)) < 1e-6;
