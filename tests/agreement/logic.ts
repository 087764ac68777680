// How the language reasons with what is known, unknown and impossible, over any domain: the rules of the
// reference, written as formulas once, so that one job and all jobs are judged alike.
import type { Domain, Value } from "./domain.ts";

export interface Logic<B, N> {
  readonly sure: <V>(value: V) => Value<B, V>;
  /** Needs all its parts: impossible if one is, else unknown if one is. */
  readonly strict: <V>(parts: readonly Value<B, unknown>[], value: V, fault: B) => Value<B, V>;
  readonly both: (a: Value<B, B>, b: Value<B, B>) => Value<B, B>;
  readonly either: (a: Value<B, B>, b: Value<B, B>) => Value<B, B>;
  readonly not: (a: Value<B, B>) => Value<B, B>;
  readonly choose: (when: Value<B, B>, yes: Value<B, N>, no: Value<B, N>) => Value<B, N>;
  readonly isYes: (a: Value<B, B>) => B;
  readonly isNo: (a: Value<B, B>) => B;
  readonly isUnknown: (a: Value<B, unknown>) => B;
}

export function logicOf<B, N>(on: Domain<B, N>): Logic<B, N> {
  const isYes = (a: Value<B, B>) => on.and(a.known, a.value);
  const isNo = (a: Value<B, B>) => on.and(a.known, on.not(a.value));
  const isUnknown = (a: Value<B, unknown>) => on.and(on.not(a.known), on.not(a.impossible));
  const not = (a: Value<B, B>): Value<B, B> => ({ ...a, value: on.not(a.value) });

  /** No where a part is no, whatever the other; without a verdict an unknown part may still settle it. */
  const both = (a: Value<B, B>, b: Value<B, B>): Value<B, B> => {
    const yes = on.and(isYes(a), isYes(b));
    const known = on.or(yes, isNo(a), isNo(b));
    return {
      known,
      value: yes,
      impossible: on.and(on.not(known), on.not(isUnknown(a)), on.not(isUnknown(b))),
    };
  };

  /** Where the condition is open it does not matter, if both sides are the same. */
  const choose = (when: Value<B, B>, yes: Value<B, N>, no: Value<B, N>): Value<B, N> => {
    const open = isUnknown(when);
    return {
      known: on.or(
        on.and(when.known, on.pickTruth(when.value, yes.known, no.known)),
        on.and(open, yes.known, no.known, on.same(yes.value, no.value)),
      ),
      impossible: on.or(
        when.impossible,
        on.and(when.known, on.pickTruth(when.value, yes.impossible, no.impossible)),
        on.and(open, yes.impossible, no.impossible),
      ),
      value: on.pick(isNo(when), no.value, yes.value),
    };
  };

  return {
    sure: (value) => ({ known: on.yes, impossible: on.no, value }),
    strict: (parts, value, fault) => {
      const whole = on.and(...parts.map((one) => one.known));
      const broken = on.or(...parts.map((one) => one.impossible));
      return { known: on.and(whole, on.not(fault)), impossible: on.or(broken, on.and(whole, fault)), value };
    },
    both,
    either: (a, b) => not(both(not(a), not(b))),
    not,
    choose,
    isYes,
    isNo,
    isUnknown,
  };
}
