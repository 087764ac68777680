// The general SMT solver, asked in SMT-LIB. One instance serves a process; `close` ends its threads.
import { init, killThreads } from "z3-solver";

type Solved =
  | { readonly is: "holds" }
  | { readonly is: "open" }
  | { readonly is: "job"; readonly values: ReadonlyMap<string, string> };

export interface Solver {
  /** Whether the assertions can hold together; if so, what the named constants are in one such case. */
  readonly ask: (text: string, names: readonly string[], seconds: number) => Promise<Solved>;
  readonly close: () => Promise<void>;
}

export async function openSolver(): Promise<Solver> {
  const { Z3, em } = await init();
  const run = async (text: string): Promise<string> => {
    const config = Z3.mk_config();
    const context = Z3.mk_context(config);
    Z3.del_config(config);
    try {
      return await Z3.eval_smtlib2_string(context, text);
    } finally {
      Z3.del_context(context);
    }
  };
  const ask = async (text: string, names: readonly string[], seconds: number): Promise<Solved> => {
    const head = `(set-option :timeout ${seconds * 1000})`;
    const values = names.length === 0 ? "" : `(get-value (${names.map((name) => `|${name}|`).join(" ")}))`;
    const told = await run(`${head}\n${text}\n(check-sat)\n${values}`);
    if (told.startsWith("unsat")) return { is: "holds" };
    if (!told.startsWith("sat")) {
      if (!/^(unknown|timeout)/.test(told)) throw new Error(`The solver says: ${told.slice(0, 300)}`);
      return { is: "open" };
    }
    // A root of an equation has no fraction; it is asked for again in digits.
    const digits = "(set-option :pp.decimal true)(set-option :pp.decimal_precision 18)";
    const again = () => run(`${head}${digits}\n${text}\n(check-sat)\n${values}`);
    const plain = told.includes("root-obj") ? await again() : told;
    if (!plain.startsWith("sat")) return { is: "open" };
    // The time may be over between the verdict and the case.
    if (plain.includes("(error")) return { is: "open" };
    const made = pairs(plain);
    if (names.some((name) => !made.has(name))) throw new Error(`The solver says: ${plain.slice(0, 2000)}`);
    return { is: "job", values: made };
  };
  return { ask, close: () => killThreads(em) };
}

/**
 * The list behind `sat`, `((x 1.5) (y (/ 1.0 3.0)))`, as a map from names to texts; long ones run over lines.
 */
function pairs(told: string): ReadonlyMap<string, string> {
  const made = new Map<string, string>();
  const tokens = told.slice(told.indexOf("(")).match(/[()]|[^\s()]+/g) ?? [];
  let depth = 0;
  let pair: string[] = [];
  for (const token of tokens) {
    if (token === ")") depth--;
    if (depth >= 2) pair.push(token);
    else if (pair.length > 0) {
      const [name, ...value] = pair;
      made.set(name!.replaceAll("|", ""), value.join(" ").replaceAll("( ", "(").replaceAll(" )", ")"));
      pair = [];
    }
    if (token === "(") depth++;
  }
  return made;
}
