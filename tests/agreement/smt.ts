// All jobs at once, as formulas in SMT-LIB: truths and amounts are texts, and each longer one is given a name
// once.
import { type Fraction, fraction } from "../engine/analysis/support/fraction.ts";
import type { Domain } from "./domain.ts";
import type { RoundWay } from "./syntax.ts";

/** A term of the solver with its sort. */
export interface Term {
  readonly text: string;
  readonly sort: "Bool" | "Int" | "Real";
}

export class Formulas implements Domain<Term, Term> {
  readonly yes: Term = { text: "true", sort: "Bool" };
  readonly no: Term = { text: "false", sort: "Bool" };
  readonly lines: string[] = [];
  /** What has to hold for a job to be clear of every edge by the given distance: see `clear`. */
  readonly #edges: string[] = [];
  readonly #known = new Map<string, Term>();

  #name(text: string, sort: Term["sort"]): Term {
    if (text.length < 24) return { text, sort };
    const known = this.#known.get(text);
    if (known !== undefined) return known;
    const made: Term = { text: `t${this.#known.size}`, sort };
    this.#known.set(text, made);
    this.lines.push(`(define-fun ${made.text} () ${sort} ${text})`);
    return made;
  }

  variable(name: string, sort: Term["sort"]): Term {
    this.lines.push(`(declare-const |${name}| ${sort})`);
    return { text: `|${name}|`, sort };
  }

  assert(a: Term): void {
    if (a !== this.yes) this.lines.push(`(assert ${a.text})`);
  }

  readonly and = (...parts: readonly Term[]): Term => this.#joined("and", parts, "true", "false");
  readonly or = (...parts: readonly Term[]): Term => this.#joined("or", parts, "false", "true");

  #joined(word: "and" | "or", parts: readonly Term[], idle: string, final: string): Term {
    const texts = new Set(parts.map((one) => one.text));
    texts.delete(idle);
    if (texts.has(final)) return final === "true" ? this.yes : this.no;
    if (texts.size === 0) return idle === "true" ? this.yes : this.no;
    if (texts.size === 1) return { text: [...texts][0]!, sort: "Bool" };
    return this.#name(`(${word} ${[...texts].join(" ")})`, "Bool");
  }

  readonly not = (a: Term): Term => {
    if (a.text === "true") return this.no;
    if (a.text === "false") return this.yes;
    if (a.text.startsWith("(not ")) return { text: a.text.slice(5, -1), sort: "Bool" };
    return { text: `(not ${a.text})`, sort: "Bool" };
  };

  readonly pickTruth = (when: Term, yes: Term, no: Term): Term =>
    yes.text === no.text ? yes : this.or(this.and(when, yes), this.and(this.not(when), no));

  readonly number = ({ top, bottom }: Fraction): Term => {
    const size = top < 0n ? -top : top;
    const text = bottom === 1n ? `${size}.0` : `(/ ${size}.0 ${bottom}.0)`;
    return { text: top < 0n ? `(- ${text})` : text, sort: "Real" };
  };
  readonly word = (at: number): Term => ({ text: String(at), sort: "Int" });
  readonly #both =
    (sign: string) =>
    (a: Term, b: Term): Term =>
      this.#name(`(${sign} ${a.text} ${b.text})`, "Real");
  readonly add = this.#both("+");
  readonly subtract = this.#both("-");
  readonly multiply = this.#both("*");
  /** The solver's own division gives anything over zero. */
  readonly divide = this.#both("/");
  readonly isZero = (a: Term): Term => this.same(a, this.number(fraction(0n, 1n)));

  readonly below = (a: Term, b: Term): Term => {
    this.#edge(a, b);
    return this.#name(`(< ${a.text} ${b.text})`, "Bool");
  };
  readonly same = (a: Term, b: Term): Term => {
    if (a.text === b.text) return this.yes;
    this.#edge(a, b);
    return this.#name(`(= ${a.text} ${b.text})`, "Bool");
  };

  readonly extreme = (does: "largest" | "smallest", a: Term, b: Term): Term => {
    const first = this.#name(`(${does === "largest" ? ">=" : "<="} ${a.text} ${b.text})`, "Bool");
    return this.pick(first, a, b);
  };

  readonly round = (a: Term, way: RoundWay, step: Fraction): Term => {
    const count = this.#name(`(/ ${a.text} ${this.number(step).text})`, "Real");
    this.#edges.push(
      `(or (is_int ${count.text}) (< EPS (- ${count.text} (to_real (to_int ${count.text}))) (- 1.0 EPS)))`,
    );
    const floor = (text: string) => `(to_real (to_int ${text}))`;
    const up = `(- ${floor(`(- ${count.text})`)})`;
    const halfUp = floor(`(+ ${count.text} 0.5)`);
    const halfDown = `(- ${floor(`(+ (- ${count.text}) 0.5)`)})`;
    const near = `(ite (>= ${count.text} 0.0) ${halfUp} ${halfDown})`;
    const whole = this.#name(way === "up" ? up : way === "down" ? floor(count.text) : near, "Real");
    return this.#name(`(* ${this.number(step).text} ${whole.text})`, "Real");
  };

  readonly pick = (when: Term, yes: Term, no: Term): Term => {
    if (yes.text === no.text || when.text === "true") return yes;
    if (when.text === "false") return no;
    return this.#name(`(ite ${when.text} ${yes.text} ${no.text})`, yes.sort);
  };

  #edge(a: Term, b: Term): void {
    if (a.sort === "Real")
      this.#edges.push(
        `(or (= ${a.text} ${b.text}) (< (+ ${a.text} EPS) ${b.text}) (< (+ ${b.text} EPS) ${a.text}))`,
      );
  }

  /**
   * Keeps to jobs in which no comparison and no rounding is closer than this to turning, save where it is
   * exact.
   */
  clear(distance: string): string {
    return [...new Set(this.#edges)].map((one) => `(assert ${one.replaceAll("EPS", distance)})`).join("\n");
  }
}
