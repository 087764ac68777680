// The grammar of clauses, declared units and kinds, chart cells, inserts and answers, on top of that of
// rules.
import { type TokenType, tokenMatcher } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import { RuleGrammar } from "./grammar-rules.ts";
import { end, spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Band, BasisText, ChartOption, Declared, Expr, Text, UnitText, Word } from "./tree.ts";

/** A clause as it was read; which statement may have it is decided afterwards. */
export type Clause = { readonly at: Span } & ClauseBody;

type ClauseBody =
  | { readonly is: "title"; readonly text: Text }
  | { readonly is: "because" | "then"; readonly text: Text }
  | { readonly is: "from"; readonly basis: BasisText }
  | { readonly is: "when" | "takes" | "waits" | "measured"; readonly rule: Expr }
  | { readonly is: "drawn"; readonly word: Word }
  | { readonly is: "after"; readonly step: Word }
  | { readonly is: "withSteps"; readonly steps: readonly Word[] }
  | { readonly is: "ifUnknown" | "ifBlank" | "ifEither"; readonly take: Expr; readonly because?: Text }
  | { readonly is: "option"; readonly option: ChartOption };

/** Not to be used by itself: the last class that extends it analyses the whole. */
export class ClauseGrammar extends RuleGrammar {
  declared = this.RULE("declared", (): Declared => {
    let made: Declared;
    this.OPTION(() =>
      this.OR([
        {
          ALT: () => {
            this.CONSUME(T.In);
            const unit = this.SUBRULE(this.unit);
            made = this.ACTION(() => ({ in: unit }));
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.Of);
            const kind = this.SUBRULE(this.name);
            made = this.ACTION(() => ({ of: kind }));
          },
        },
      ]),
    );
    return made;
  });

  clauses = this.RULE("clauses", (): Clause[] => {
    const found: Clause[] = [];
    this.MANY(() => {
      const clause = this.SUBRULE(this.clause);
      this.ACTION(() => found.push(clause));
    });
    return found;
  });

  clause = this.RULE("clause", (): Clause => {
    const first = this.LA(1);
    const read = this.OR<ClauseBody & { readonly at?: Span }>([
      { ALT: () => ({ is: "title", text: this.SUBRULE(this.text) }) },
      {
        ALT: () => {
          this.CONSUME(T.Because);
          return { is: "because", text: this.SUBRULE2(this.text) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Then);
          return { is: "then", text: this.SUBRULE4(this.text) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.From);
          return { is: "from", basis: this.SUBRULE(this.basis) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.When);
          return { is: "when", rule: this.SUBRULE(this.either) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Takes);
          return { is: "takes", rule: this.SUBRULE(this.rule) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Waits);
          return { is: "waits", rule: this.SUBRULE2(this.rule) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.MeasuredTo);
          return { is: "measured", rule: this.SUBRULE(this.amount) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.DrawnAs);
          return { is: "drawn", word: this.SUBRULE3(this.name) };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.After);
          return { is: "after", step: this.SUBRULE4(this.name) };
        },
      },
      { ALT: () => this.cautionSteps() },
      { ALT: () => this.ifUnknown() },
      { ALT: () => this.chartOption() },
    ]);
    return this.ACTION(() => ({ at: { start: first.startOffset, end: end(this.LA(0)) }, ...read }));
  });

  /** `with step wash, rinse`: the steps that a caution goes with. */
  private cautionSteps(): ClauseBody {
    this.CONSUME(T.With);
    this.OPTION({
      GATE: () => this.LA(1).image === "step" && tokenMatcher(this.LA(2), T.Name),
      DEF: () => {
        this.SUBRULE(this.name);
      },
    });
    const steps: Word[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: T.Comma,
      DEF: () => {
        const step = this.SUBRULE2(this.name);
        this.ACTION(() => steps.push(step));
      },
    });
    return { is: "withSteps", steps };
  }

  private ifUnknown(): ClauseBody {
    const word = this.OR3([
      { ALT: () => this.CONSUME(T.IfUnknownTake) },
      { ALT: () => this.CONSUME(T.IfBlankTake) },
      { ALT: () => this.CONSUME(T.IfEitherTake) },
    ]);
    const is =
      word.tokenType === T.IfBlankTake
        ? "ifBlank"
        : word.tokenType === T.IfEitherTake
          ? "ifEither"
          : "ifUnknown";
    const take = this.SUBRULE3(this.rule);
    let because: Text | undefined;
    this.OPTION2(() => {
      this.CONSUME2(T.Because);
      because = this.SUBRULE3(this.text);
    });
    return { is, take, ...(because ? { because } : {}) };
  }

  /** How a chart's rows are read; a comma may follow and is no part of it. */
  private chartOption(): ClauseBody & { readonly at: Span } {
    const option = this.OR2([
      { ALT: () => this.CONSUME(T.StraightBetween) },
      { ALT: () => this.CONSUME(T.CurveBetween) },
      { ALT: () => this.CONSUME(T.FirstRowWins) },
      { ALT: () => this.CONSUME(T.KeepEvery) },
      { ALT: () => this.CONSUME(T.NothingOutside) },
      { ALT: () => this.CONSUME(T.HoldEnds) },
    ]);
    this.OPTION3(() => this.CONSUME(T.Comma));
    return this.ACTION(() => ({
      is: "option",
      at: spanOf(option),
      option: OPTIONS.get(option.tokenType)!,
    }));
  }

  basis = this.RULE("basis", (): BasisText => {
    const kind = this.CONSUME(T.Name);
    let detail: string | undefined;
    this.OPTION(() => {
      const text = this.CONSUME(T.TextToken);
      this.ACTION(() => {
        detail = text.image.slice(1, -1);
      });
    });
    return this.ACTION(() => ({
      at: { start: kind.startOffset, end: end(this.LA(0)) },
      kind: kind.image,
      ...(detail !== undefined ? { detail } : {}),
    }));
  });

  // ───────────── chart cells, inserts and answers ─────────────

  conditionCell = this.RULE("conditionCell", (): "any" | Band[] => {
    const bands: Band[] = [];
    let any = false;
    this.AT_LEAST_ONE_SEP({
      SEP: T.Comma,
      DEF: () => {
        const word = this.LA(1);
        const band = this.SUBRULE(this.cellBand);
        this.ACTION(() => {
          if (word.tokenType === T.AnyWord) any = true;
          bands.push(band);
        });
      },
    });
    return any ? "any" : bands;
  });

  insert = this.RULE("insert", (): { rule: Expr; unit?: UnitText } => {
    const rule = this.SUBRULE(this.rule);
    let unit: UnitText | undefined;
    this.OPTION(() => {
      this.CONSUME(T.In);
      unit = this.SUBRULE(this.unit);
    });
    return { rule, ...(unit ? { unit } : {}) };
  });

  /** An answer as a technician types it. */
  answer = this.RULE("answer", (): { value: Expr; tolerance?: Expr } => {
    const value = this.SUBRULE(this.item);
    let tolerance: Expr | undefined;
    this.OPTION(() => {
      this.CONSUME(T.PlusMinus);
      tolerance = this.SUBRULE(this.amount);
    });
    return { value, ...(tolerance ? { tolerance } : {}) };
  });
}

const OPTIONS = new Map<TokenType, ChartOption>([
  [T.StraightBetween, "straight"],
  [T.CurveBetween, "curve"],
  [T.FirstRowWins, "first-row-wins"],
  [T.KeepEvery, "keep-every-row"],
  [T.NothingOutside, "nothing outside"],
  [T.HoldEnds, "hold ends"],
]);
