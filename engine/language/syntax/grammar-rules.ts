// The grammar of rules: expressions and bands, one rule a construct, building the tree as it reads. Literals
// and names are in grammar-literals.ts, what surrounds a rule in grammar-clauses.ts and grammar.ts.
import { type IToken, type ParserMethod, type TokenType, tokenMatcher } from "chevrotain";
import { LiteralGrammar, UNIT_TOKENS } from "./grammar-literals.ts";
import { binary, climb, negate } from "./operators.ts";
import { end, spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Band, BinaryOp, Case, Expr, Gather, OfKnown, Word } from "./tree.ts";

/** Not to be used by itself: the last class that extends it analyses the whole. */
export class RuleGrammar extends LiteralGrammar {
  // ───────────── rules, loosest binding first ─────────────

  rule = this.RULE("rule", (): Expr => {
    const first = this.SUBRULE(this.either);
    const cases: Case[] = [];
    let otherwise: Expr | undefined;
    this.OPTION(() => {
      this.CONSUME(T.If);
      cases.push({ value: first, when: this.SUBRULE2(this.either) });
      this.MANY(() => {
        this.CONSUME(T.Comma);
        this.OR([
          {
            ALT: () => {
              this.CONSUME(T.Otherwise);
              otherwise = this.SUBRULE3(this.either);
            },
          },
          {
            ALT: () => {
              const value = this.SUBRULE4(this.either);
              this.CONSUME2(T.If);
              cases.push({ value, when: this.SUBRULE5(this.either) });
            },
          },
        ]);
      });
    });
    return this.ACTION(() =>
      cases.length === 0
        ? first
        : {
            is: "choose",
            at: { start: first.at.start, end: (otherwise ?? cases.at(-1)!.when).at.end },
            cases,
            ...(otherwise ? { otherwise } : {}),
          },
    );
  });

  // Few rules are between a bracket and the next one inside it, because each costs a good many frames of
  // the stack: operators that bind differently are read as one flat row and put together by `climb`.

  either = this.RULE("either", (): Expr => {
    const parts: Expr[] = [this.SUBRULE(this.comparison)];
    const ops: IToken[] = [];
    this.MANY(() => {
      ops.push(this.OR([{ ALT: () => this.CONSUME(T.And) }, { ALT: () => this.CONSUME(T.Or) }]));
      parts.push(this.SUBRULE2(this.comparison));
    });
    return this.ACTION(() => climb(parts, ops));
  });

  comparison = this.RULE("comparison", (): Expr => {
    const nots: IToken[] = [];
    this.MANY(() => {
      nots.push(this.CONSUME(T.Not));
    });
    const left = this.SUBRULE(this.rounded);
    let whole = left;
    this.OPTION(() => {
      this.OR([
        {
          ALT: () => {
            const op = this.OR2([
              { ALT: () => this.CONSUME(T.Less) },
              { ALT: () => this.CONSUME(T.AtMost) },
              { ALT: () => this.CONSUME(T.More) },
              { ALT: () => this.CONSUME(T.AtLeast) },
            ]);
            const right = this.SUBRULE2(this.rounded);
            whole = this.ACTION(() => binary(op.image as BinaryOp, op, left, right));
          },
        },
        {
          ALT: () => {
            whole = this.SUBRULE(this.isTail, { ARGS: [left] });
          },
        },
      ]);
    });
    return this.ACTION(() =>
      nots.reduceRight<Expr>(
        (of, not) => ({ is: "not", at: { start: not.startOffset, end: of.at.end }, of }),
        whole,
      ),
    );
  });

  isTail = this.RULE("isTail", (of: Expr): Expr => {
    const word = this.OR([{ ALT: () => this.CONSUME(T.Is) }, { ALT: () => this.CONSUME(T.IsNot) }]);
    const not = word.tokenType === T.IsNot;
    let whole: Expr = of;
    this.OR2([
      {
        ALT: () => {
          this.CONSUME(T.OneOf);
          const items: Expr[] = [this.SUBRULE(this.item)];
          this.MANY({
            GATE: () => this.itemFollows(),
            DEF: () => {
              this.CONSUME(T.Comma);
              items.push(this.SUBRULE2(this.item));
            },
          });
          whole = this.ACTION(() => ({
            is: "one-of",
            at: { start: of.at.start, end: items.at(-1)!.at.end },
            of,
            items,
            not,
          }));
        },
      },
      {
        GATE: () => this.LA(1).tokenType === T.Known && this.endsAfterKnown(),
        ALT: () => {
          const known = this.CONSUME(T.Known);
          whole = this.ACTION(() => ({ is: "known", at: { start: of.at.start, end: end(known) }, of, not }));
        },
      },
      {
        GATE: () => this.LA(1).tokenType === T.Among,
        ALT: () => {
          this.CONSUME(T.Among);
          const chart = this.SUBRULE(this.name);
          whole = this.ACTION(() => ({
            is: "among",
            at: { start: of.at.start, end: chart.at.end },
            of,
            chart,
            not,
          }));
        },
      },
      {
        ALT: () => {
          const band = this.SUBRULE(this.band);
          whole = this.ACTION(() => {
            const at = { start: of.at.start, end: band.at.end };
            if (band.low !== undefined && band.low === band.high)
              return {
                is: "binary",
                at,
                op: not ? "is not" : "is",
                opAt: spanOf(word),
                left: of,
                right: band.low,
              };
            return { is: "in-band", at, of, band, not };
          });
        },
      },
    ]);
    return whole;
  });

  /** A band, or a single value as a point. */
  band = this.RULE("band", (): Band => this.bandOf(this.rounded));

  /** The same in a chart's cell, with ends that are literals or names of dials. */
  cellBand = this.RULE("cellBand", (): Band => this.bandOf(this.item));

  /** `under 3 mm`, `2 mm to under 4 mm`, `any`, with each end read by a rule of the grammar. */
  private bandOf(edge: ParserMethod<[], Expr>): Band {
    let low: Expr | undefined;
    let high: Expr | undefined;
    let lowIn = true;
    let highIn = true;
    const from = this.LA(1);
    this.OR<unknown>([
      { ALT: () => this.CONSUME(T.AnyWord) },
      {
        ALT: () => {
          this.CONSUME(T.Under);
          highIn = false;
          high = this.SUBRULE(edge);
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.UpTo);
          high = this.SUBRULE2(edge);
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Over);
          lowIn = false;
          low = this.SUBRULE3(edge);
          this.OPTION(() => {
            this.CONSUME(T.To);
            this.OPTION2(() => {
              this.CONSUME2(T.Under);
              highIn = false;
            });
            high = this.SUBRULE4(edge);
          });
        },
      },
      {
        ALT: () => {
          low = this.SUBRULE5(edge);
          high = low;
          this.OPTION3(() => {
            high = this.upperEnd(edge, () => {
              highIn = false;
            });
          });
        },
      },
    ]);
    return this.ACTION(() => ({
      at: { start: from.startOffset, end: end(this.LA(0)) },
      ...(low ? { low } : {}),
      lowIn,
      ...(high ? { high } : {}),
      highIn,
    }));
  }

  /** After a lower end: `and over`, or `to` and the upper end, which `under` takes out of the band. */
  private upperEnd(edge: ParserMethod<[], Expr>, excluded: () => void): Expr | undefined {
    return this.OR2<Expr | undefined>([
      {
        ALT: () => {
          this.CONSUME(T.AndOver);
          return undefined;
        },
      },
      {
        ALT: () => {
          this.CONSUME2(T.To);
          this.OPTION4(() => {
            this.CONSUME3(T.Under);
            excluded();
          });
          return this.SUBRULE6(edge);
        },
      },
    ]);
  }

  rounded = this.RULE("rounded", (): Expr => {
    const parts: Expr[] = [this.SUBRULE(this.signed)];
    const ops: IToken[] = [];
    this.MANY(() => {
      ops.push(
        this.OR([
          { ALT: () => this.CONSUME(T.RunOutAt) },
          { ALT: () => this.CONSUME(T.PairedAt) },
          { ALT: () => this.CONSUME(T.Plus) },
          { ALT: () => this.CONSUME(T.Minus) },
          { ALT: () => this.CONSUME(T.Star) },
          { ALT: () => this.CONSUME(T.Slash) },
          { ALT: () => this.CONSUME(T.Of) },
        ]),
      );
      parts.push(this.SUBRULE2(this.signed));
    });
    let of = this.ACTION(() => climb(parts, ops));
    this.MANY2(() => {
      const way = this.OR2([
        { ALT: () => this.CONSUME(T.RoundedUp) },
        { ALT: () => this.CONSUME(T.RoundedDown) },
        { ALT: () => this.CONSUME(T.RoundedNear) },
      ]);
      const to: Expr | "whole" = this.OR3<Expr | "whole">([
        {
          GATE: () => this.LA(1).tokenType === T.Whole,
          ALT: () => {
            this.CONSUME(T.Whole);
            return "whole";
          },
        },
        { ALT: () => this.SUBRULE(this.primary) },
      ]);
      of = this.ACTION(
        (): Expr => ({
          is: "round",
          at: { start: of.at.start, end: end(this.LA(0)) },
          of,
          to,
          way: way.tokenType === T.RoundedUp ? "up" : way.tokenType === T.RoundedDown ? "down" : "near",
        }),
      );
    });
    return of;
  });

  /** Powers, which bind from the right, and the signs before them. */
  signed = this.RULE("signed", (): Expr => {
    const signs: IToken[] = [];
    this.MANY(() => {
      signs.push(this.CONSUME(T.Minus));
    });
    const chain: Expr[] = [this.SUBRULE(this.primary)];
    const ops: IToken[] = [];
    this.MANY2(() => {
      ops.push(this.CONSUME(T.Caret));
      const inner: IToken[] = [];
      this.MANY3(() => {
        inner.push(this.CONSUME2(T.Minus));
      });
      const base = this.SUBRULE2(this.primary);
      this.ACTION(() => chain.push(inner.reduceRight<Expr>(negate, base)));
    });
    return this.ACTION(() => {
      let right = chain.at(-1)!;
      for (let i = chain.length - 2; i >= 0; i--) right = binary("^", ops[i]!, chain[i]!, right);
      return signs.reduceRight<Expr>(negate, right);
    });
  });

  primary = this.RULE("primary", (): Expr => {
    let made!: Expr;
    this.OR([
      {
        ALT: () => {
          made = this.SUBRULE(this.literal);
        },
      },
      {
        ALT: () => {
          made = this.SUBRULE(this.gathered);
        },
      },
      {
        ALT: () => {
          made = this.SUBRULE(this.ofKnown);
        },
      },
      {
        ALT: () => {
          const name = this.SUBRULE(this.name);
          let field: Word | undefined;
          let args: Expr[] | undefined;
          let above = false;
          this.OPTION(() =>
            this.OR2([
              {
                GATE: () => this.LA(1).tokenType === T.Before && this.sameLine(),
                ALT: () => {
                  this.CONSUME(T.Before);
                  above = true;
                },
              },
              {
                ALT: () => {
                  this.CONSUME(T.Dot);
                  field = this.SUBRULE2(this.name);
                },
              },
              {
                ALT: () => {
                  this.CONSUME2(T.Open);
                  args = [];
                  this.OPTION2(() => {
                    const first = this.SUBRULE(this.either);
                    this.ACTION(() => args!.push(first));
                    this.MANY(() => {
                      this.CONSUME(T.Comma);
                      const arg = this.SUBRULE2(this.either);
                      this.ACTION(() => args!.push(arg));
                    });
                  });
                  this.CONSUME2(T.Close);
                  this.OPTION3(() => {
                    this.CONSUME2(T.Dot);
                    field = this.SUBRULE3(this.name);
                  });
                },
              },
            ]),
          );
          this.ACTION(() => {
            const at = { start: name.at.start, end: end(this.LA(0)) };
            made = above
              ? { is: "before", at, name }
              : args !== undefined
                ? { is: "call", at, name, args, ...(field ? { field } : {}) }
                : { is: "name", at, name: name.text, ...(field ? { field } : {}) };
          });
        },
      },
      {
        ALT: () => {
          const open = this.CONSUME(T.Open);
          const inner = this.SUBRULE(this.rule);
          const close = this.CONSUME(T.Close);
          made = this.ACTION(() => ({ ...inner, at: { start: open.startOffset, end: end(close) } }));
        },
      },
    ]);
    this.OPTION4(() => {
      this.CONSUME(T.CountedIn);
      const unit = this.SUBRULE(this.unit);
      const of = made;
      made = this.ACTION(() => ({ is: "counted", at: { start: of.at.start, end: unit.at.end }, of, unit }));
    });
    return made;
  });

  gathered = this.RULE("gathered", (): Expr => {
    const word = this.OR([
      { ALT: () => this.CONSUME(T.SumOf) },
      { ALT: () => this.CONSUME(T.LargestOf) },
      { ALT: () => this.CONSUME(T.SmallestOf) },
      { ALT: () => this.CONSUME(T.CountOf) },
      { ALT: () => this.CONSUME(T.FirstOf) },
      { ALT: () => this.CONSUME(T.LastOf) },
    ]);
    const from = this.SUBRULE(this.name);
    let field: Word | undefined;
    this.OPTION(() => {
      this.CONSUME(T.Dot);
      // Of the steps there are `takes` and `waits`, which are no names anywhere else.
      field = this.OR2([
        { ALT: () => this.SUBRULE2(this.name) },
        {
          ALT: () => {
            const word = this.CONSUME(T.Takes);
            return this.ACTION(() => ({ at: spanOf(word), text: word.image }));
          },
        },
        {
          ALT: () => {
            const word = this.CONSUME(T.Waits);
            return this.ACTION(() => ({ at: spanOf(word), text: word.image }));
          },
        },
      ]);
    });
    return this.ACTION(
      (): Expr => ({
        is: "gather",
        at: { start: word.startOffset, end: (field ?? from).at.end },
        what: word.image.split(/\s/)[0] as Gather,
        from,
        ...(field ? { field } : {}),
      }),
    );
  });

  /** `first known of a, b, 5 mm`. */
  ofKnown = this.RULE("ofKnown", (): Expr => {
    const word = this.OR([
      { ALT: () => this.CONSUME(T.FirstKnownOf) },
      { ALT: () => this.CONSUME(T.SmallestKnownOf) },
      { ALT: () => this.CONSUME(T.LargestKnownOf) },
      { ALT: () => this.CONSUME(T.CountKnownOf) },
    ]);
    const items: Expr[] = [this.SUBRULE(this.item)];
    this.MANY({
      GATE: () => this.knownFollows(),
      DEF: () => {
        this.CONSUME(T.Comma);
        items.push(this.SUBRULE2(this.item));
      },
    });
    return this.ACTION(
      (): Expr => ({
        is: "of-known",
        at: { start: word.startOffset, end: end(this.LA(0)) },
        what: word.image.split(/\s/)[0] as OfKnown,
        items,
      }),
    );
  });

  // ───────────── looking ahead ─────────────

  protected endsAfterKnown(): boolean {
    const next = this.LA(2).tokenType;
    return next !== T.Dot && next !== T.Open && next !== T.To && next !== T.AndOver;
  }

  /** Whether the comma here goes on with the values of `first known of`: a literal, or a name by itself. */
  protected knownFollows(): boolean {
    const next = this.LA(3).tokenType;
    return tokenMatcher(this.LA(2), T.Name)
      ? !tokenMatcher(this.LA(3), T.Name) && !BEGINS.has(next)
      : BEGINS.has(this.LA(2).tokenType) && this.LA(2).tokenType !== T.Open;
  }

  /**
   * Whether the comma here goes on with `is one of`, or parts two alternatives: in
   * `a if d is one of x, y, b if …` the item before `if` begins the next alternative.
   */
  protected itemFollows(): boolean {
    let i = 2;
    while (this.LA(i).tokenType === T.Minus) i++;
    const first = this.LA(i).tokenType;
    if (first === T.NumberToken || first === T.Fraction || first === T.Mixed) {
      i++;
      while (
        UNIT_TOKENS.some((type) => tokenMatcher(this.LA(i), type)) ||
        AMOUNT_TAIL.has(this.LA(i).tokenType)
      )
        i++;
    } else if (first === T.Ratio) {
      i++;
      if (this.LA(i).tokenType === T.ByMass || this.LA(i).tokenType === T.ByVolume) i++;
    } else if (
      tokenMatcher(this.LA(i), T.Name) ||
      first === T.Yes ||
      first === T.No ||
      first === T.TextToken
    ) {
      i++;
    } else {
      return false;
    }
    return !GOES_ON.has(this.LA(i).tokenType);
  }
}

/** What a literal, or what belongs to a name, can begin with. */
const BEGINS = new Set<TokenType>([
  T.NumberToken,
  T.Fraction,
  T.Mixed,
  T.Ratio,
  T.Minus,
  T.Yes,
  T.No,
  T.TextToken,
  T.Open,
  T.Dot,
]);
const AMOUNT_TAIL = new Set<TokenType>([T.Apart, T.ByMass, T.ByVolume, T.NumberToken, T.Fraction, T.Mixed]);
const GOES_ON = new Set<TokenType>([
  T.If,
  T.Dot,
  T.Open,
  T.Plus,
  T.Minus,
  T.Star,
  T.Slash,
  T.Caret,
  T.Of,
  T.RunOutAt,
  T.PairedAt,
  T.RoundedUp,
  T.RoundedDown,
  T.RoundedNear,
  T.Less,
  T.More,
  T.AtMost,
  T.AtLeast,
  T.Is,
  T.IsNot,
]);
