// The grammar of statements, on top of those of clauses and rules. The splitter has already cut the book into
// statements and taken the first word off; chart cells come in one by one. One parser is kept and fed again
// and again: making one costs far more than using it.
import { tokenMatcher } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import { ClauseGrammar } from "./grammar-clauses.ts";
import { end } from "./token-places.ts";
import * as T from "./tokens.ts";
import type {
  Body,
  ChartCondition,
  ChartOut,
  Declared,
  Expectation,
  Expr,
  Given,
  Text,
  Word,
} from "./tree.ts";

export class Grammar extends ClauseGrammar {
  /** Throws where `validate` is asked for and the grammar is ambiguous or left-recursive. */
  constructor(validate = false) {
    super(validate);
    this.performSelfAnalysis();
  }

  book = this.RULE("book", () => {
    const name = this.SUBRULE(this.name);
    let edition: number | undefined;
    let amends: { name: Word; edition?: number } | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Comma);
      this.CONSUME(T.Edition);
      const number = this.SUBRULE(this.number);
      this.ACTION(() => {
        edition = number.value;
      });
    });
    this.OPTION2(() => {
      this.CONSUME2(T.Comma);
      this.CONSUME(T.Amends);
      const of = this.SUBRULE2(this.name);
      let ofEdition: number | undefined;
      this.OPTION3(() => {
        this.CONSUME3(T.Comma);
        this.CONSUME2(T.Edition);
        const number = this.SUBRULE2(this.number);
        this.ACTION(() => {
          ofEdition = number.value;
        });
      });
      this.ACTION(() => {
        amends = { name: of, ...(ofEdition !== undefined ? { edition: ofEdition } : {}) };
      });
    });
    const clauses = this.SUBRULE(this.clauses);
    return { name, edition, amends, clauses };
  });

  use = this.RULE("use", () => {
    const name = this.SUBRULE(this.name);
    let edition: number | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Comma);
      this.CONSUME(T.Edition);
      const number = this.SUBRULE(this.number);
      this.ACTION(() => {
        edition = number.value;
      });
    });
    const clauses = this.SUBRULE(this.clauses);
    return { name, edition, clauses };
  });

  /**
   * What is dropped is meant by its name, by its text (which is read as a clause), or, a promise, by its
   * rule.
   */
  drop = this.RULE("drop", () => {
    const what = this.CONSUME(T.Name);
    let target: Word | undefined;
    let rule: Expr | undefined;
    this.OPTION({
      GATE: () => what.image === "promise",
      DEF: () => {
        rule = this.SUBRULE(this.either);
      },
    });
    this.OPTION2({
      GATE: () => what.image !== "promise",
      DEF: () => {
        target = this.SUBRULE(this.name);
      },
    });
    const clauses = this.SUBRULE(this.clauses);
    return { what: this.ACTION(() => what.image), target, rule, clauses };
  });

  /** `chart NAME add`; the rows have been taken out. */
  added = this.RULE("added", () => {
    const name = this.SUBRULE(this.name);
    this.CONSUME(T.Name);
    const clauses = this.SUBRULE(this.clauses);
    return { name, clauses };
  });

  kind = this.RULE("kind", () => {
    const name = this.SUBRULE(this.name);
    const found: { at: Span; word: string; means?: Text }[] = [];
    this.MANY(() => {
      const word = this.SUBRULE2(this.name);
      let means: Text | undefined;
      this.OPTION(() => {
        means = this.SUBRULE(this.text);
      });
      this.ACTION(() => found.push({ at: word.at, word: word.text, ...(means ? { means } : {}) }));
    });
    return { name, words: found };
  });

  ask = this.RULE("ask", () => {
    const name = this.SUBRULE(this.name);
    const declared = this.SUBRULE(this.declared);
    let range: { low: Expr; high: Expr } | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Comma);
      const low = this.SUBRULE(this.signedLiteral);
      this.CONSUME(T.To);
      const high = this.SUBRULE2(this.signedLiteral);
      this.ACTION(() => {
        range = { low, high };
      });
    });
    const usually = this.OPTION2(() => {
      this.CONSUME2(T.Comma);
      return this.SUBRULE(this.usually);
    });
    const ruleEnd = this.ACTION(() => end(this.LA(0)));
    const clauses = this.SUBRULE(this.clauses);
    return { name, declared, range, usually, ruleEnd, clauses };
  });

  /** `usually 35 to 75`, or words: `usually smc, hand-laid`. */
  usually = this.RULE("usually", (): Extract<Body, { keyword: "ask" }>["usually"] => {
    const word = this.CONSUME(T.Usually);
    const items = [this.SUBRULE(this.item)];
    let to: Expr | undefined;
    this.OPTION(() => {
      this.CONSUME(T.To);
      to = this.SUBRULE(this.signedLiteral);
    });
    this.MANY(() => {
      this.CONSUME(T.Comma);
      items.push(this.SUBRULE2(this.item));
    });
    const at = this.ACTION(() => ({ start: word.startOffset, end: end(this.LA(0)) }));
    return { at, items, ...(to ? { to } : {}) };
  });

  dial = this.RULE("dial", () => {
    const name = this.SUBRULE(this.name);
    const declared = this.SUBRULE(this.declared);
    this.CONSUME(T.Equals);
    const rule = this.OR([
      { ALT: () => this.SUBRULE(this.signedLiteral) },
      {
        ALT: () => {
          const word = this.SUBRULE2(this.name);
          return this.ACTION((): Expr => ({ is: "name", at: word.at, name: word.text }));
        },
      },
    ]);
    let range: { low: Expr; high: Expr } | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Comma);
      this.CONSUME(T.From);
      const low = this.SUBRULE2(this.signedLiteral);
      this.CONSUME(T.To);
      const high = this.SUBRULE3(this.signedLiteral);
      this.ACTION(() => {
        range = { low, high };
      });
    });
    const ruleEnd = this.ACTION(() => end(this.LA(0)));
    const clauses = this.SUBRULE(this.clauses);
    return { name, declared, rule, range, ruleEnd, clauses };
  });

  figure = this.RULE("figure", () => {
    const name = this.SUBRULE(this.name);
    const declared = this.SUBRULE(this.declared);
    this.CONSUME(T.Equals);
    const rule = this.SUBRULE(this.rule);
    const clauses = this.SUBRULE(this.clauses);
    return { name, declared, rule, clauses };
  });

  formula = this.RULE("formula", () => {
    const name = this.SUBRULE(this.name);
    const parameters: { name: Word; declared: Declared }[] = [];
    this.CONSUME(T.Open);
    this.MANY_SEP({
      SEP: T.Comma,
      DEF: () => {
        const parameter = this.SUBRULE2(this.name);
        const declared = this.SUBRULE(this.declared);
        this.ACTION(() => parameters.push({ name: parameter, declared }));
      },
    });
    this.CONSUME(T.Close);
    this.CONSUME(T.Equals);
    const rule = this.SUBRULE(this.rule);
    const clauses = this.SUBRULE(this.clauses);
    return { name, parameters, rule, clauses };
  });

  chart = this.RULE("chart", () => {
    const name = this.SUBRULE(this.name);
    const conditions: ChartCondition[] = [];
    const more = (declared: Declared) =>
      this.ACTION(() => {
        if (declared !== undefined) conditions.push({ ...conditions.pop()!, declared });
      });
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.By);
          const first = this.SUBRULE2(this.name);
          this.ACTION(() => conditions.push(first));
        },
      },
      // A chart by a figure that is named `mass` or `volume` reads like a share's basis.
      {
        ALT: () => {
          const token = this.CONSUME(T.ByMass);
          this.ACTION(() =>
            conditions.push({ at: { start: end(token) - 4, end: end(token) }, text: "mass" }),
          );
        },
      },
      {
        ALT: () => {
          const token = this.CONSUME(T.ByVolume);
          this.ACTION(() =>
            conditions.push({ at: { start: end(token) - 6, end: end(token) }, text: "volume" }),
          );
        },
      },
    ]);
    more(this.SUBRULE(this.declared));
    this.MANY(() => {
      this.CONSUME(T.Comma);
      const next = this.SUBRULE3(this.name);
      this.ACTION(() => conditions.push(next));
      more(this.SUBRULE2(this.declared));
    });
    this.CONSUME(T.Gives);
    const gives: ChartOut[] = [this.SUBRULE(this.chartOut)];
    this.MANY2(() => {
      this.CONSUME2(T.Comma);
      gives.push(this.SUBRULE2(this.chartOut));
    });
    const ruleEnd = this.ACTION(() => end(this.LA(0)));
    const clauses = this.SUBRULE(this.clauses);
    return { name, conditions, gives, ruleEnd, clauses };
  });

  chartOut = this.RULE("chartOut", (): ChartOut => {
    const first = this.LA(1);
    let name: Word | undefined;
    let declared: ChartOut["declared"];
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.In);
          const unit = this.SUBRULE(this.unit);
          this.ACTION(() => {
            declared = { in: unit };
          });
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Of);
          const kind = this.SUBRULE(this.name);
          this.ACTION(() => {
            declared = { of: kind };
          });
        },
      },
      {
        GATE: () => !tokenMatcher(this.LA(1), T.Name),
        ALT: () => {
          const unit = this.SUBRULE2(this.unit);
          this.ACTION(() => {
            declared = { in: unit };
          });
        },
      },
      {
        ALT: () => {
          name = this.SUBRULE2(this.name);
          declared = this.SUBRULE(this.declared);
          this.ACTION(() => {
            if (declared === undefined) {
              declared = { bare: name! };
              name = undefined;
            }
          });
        },
      },
    ]);
    return this.ACTION(() => ({
      at: { start: first.startOffset, end: end(this.LA(0)) },
      ...(name ? { name } : {}),
      declared,
    }));
  });

  list = this.RULE("list", () => {
    const name = this.SUBRULE(this.name);
    this.CONSUME(T.For);
    const counter = this.SUBRULE2(this.name);
    this.CONSUME(T.From);
    const from = this.SUBRULE(this.rounded);
    this.CONSUME(T.To);
    const to = this.SUBRULE2(this.rounded);
    const ruleEnd = this.ACTION(() => end(this.LA(0)));
    const columns: { at: Span; name: Word; declared: Declared; rule: Expr }[] = [];
    this.MANY(() => {
      const column = this.SUBRULE3(this.name);
      const declared = this.SUBRULE(this.declared);
      this.CONSUME(T.Equals);
      const rule = this.SUBRULE(this.rule);
      this.ACTION(() =>
        columns.push({ at: { start: column.at.start, end: rule.at.end }, name: column, declared, rule }),
      );
    });
    const clauses = this.SUBRULE(this.clauses);
    return { name, counter, from, to, columns, ruleEnd, clauses };
  });

  /** step, caution, stop, part: an optional name, then clauses of which the first is the text. */
  line = this.RULE("line", () => {
    let name: Word | undefined;
    this.OPTION(() => {
      name = this.SUBRULE(this.name);
    });
    const clauses = this.SUBRULE(this.clauses);
    return { name, clauses };
  });

  promise = this.RULE("promise", () => {
    const rule = this.SUBRULE(this.either);
    const clauses = this.SUBRULE(this.clauses);
    return { rule, clauses };
  });

  picture = this.RULE("picture", () => {
    const shape = this.SUBRULE(this.name);
    const given: { name: Word; rule: Expr }[] = [];
    let title: Text | undefined;
    this.OPTION2(() => {
      title = this.SUBRULE(this.text);
    });
    this.OPTION(() => {
      this.CONSUME(T.With);
      this.AT_LEAST_ONE_SEP({
        SEP: T.Comma,
        DEF: () => {
          const name = this.SUBRULE2(this.name);
          const rule = this.SUBRULE(this.either);
          this.ACTION(() => given.push({ name, rule }));
        },
      });
    });
    const clauses = this.SUBRULE(this.clauses);
    return { shape, title, given, clauses };
  });

  worked = this.RULE("worked", () => {
    const name = this.SUBRULE(this.name);
    let title: Text | undefined;
    const given: Given[] = [];
    const gives: Expectation[] = [];
    this.OPTION(() => {
      title = this.SUBRULE(this.text);
    });
    this.MANY(() =>
      this.OR([
        {
          ALT: () => {
            this.CONSUME(T.With);
            this.AT_LEAST_ONE_SEP({
              SEP: T.Comma,
              DEF: () => {
                const one = this.SUBRULE(this.given);
                this.ACTION(() => given.push(one));
              },
            });
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.Gives);
            this.AT_LEAST_ONE_SEP2({
              SEP: T.Comma,
              DEF: () => {
                const one = this.SUBRULE(this.expected);
                this.ACTION(() => gives.push(one));
              },
            });
          },
        },
      ]),
    );
    const clauses = this.SUBRULE(this.clauses);
    return { name, title, given, gives, clauses };
  });

  given = this.RULE("given", (): Given => {
    const name = this.SUBRULE(this.name);
    const value = this.SUBRULE(this.item);
    let tolerance: Expr | undefined;
    this.OPTION(() => {
      this.CONSUME(T.PlusMinus);
      tolerance = this.SUBRULE(this.amount);
    });
    return this.ACTION(() => ({
      at: { start: name.at.start, end: end(this.LA(0)) },
      name,
      value,
      ...(tolerance ? { tolerance } : {}),
    }));
  });

  expected = this.RULE("expected", (): Expectation => {
    let made!: Expectation;
    this.OR([
      {
        ALT: () => {
          const no = this.CONSUME(T.No);
          const what = this.SUBRULE(this.name);
          const name = this.SUBRULE2(this.name);
          made = this.ACTION(
            (): Expectation => ({
              is: "line",
              at: { start: no.startOffset, end: name.at.end },
              what: lineWord(what.text),
              name,
              wanted: false,
            }),
          );
        },
      },
      {
        ALT: () => {
          const name = this.SUBRULE3(this.name);
          let field: Word | undefined;
          let value: Expr | undefined;
          let tolerance: Expr | undefined;
          this.OPTION(() => {
            this.CONSUME(T.Dot);
            field = this.SUBRULE4(this.name);
          });
          this.OPTION2(() => {
            value = this.SUBRULE(this.item);
          });
          this.OPTION3(() => {
            this.CONSUME(T.PlusMinus);
            tolerance = this.SUBRULE(this.amount);
          });
          made = this.ACTION((): Expectation => {
            const at = { start: name.at.start, end: end(this.LA(0)) };
            if (value === undefined) return { is: "state", at, state: name.text };
            if (LINES.has(name.text) && value.is === "name")
              return {
                is: "line",
                at,
                what: lineWord(name.text),
                name: { at: value.at, text: value.name },
                wanted: true,
              };
            return {
              is: "value",
              at,
              name,
              ...(field ? { field } : {}),
              value,
              ...(tolerance ? { tolerance } : {}),
            };
          });
        },
      },
    ]);
    return made;
  });
}

const LINES = new Set(["step", "caution", "stop", "refer"]);

/** A word that is none of them has its finding. */
const lineWord = (word: string): "step" | "caution" | "stop" =>
  word === "refer" ? "stop" : (word as "step");
