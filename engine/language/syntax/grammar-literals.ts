// The grammar of what rules are made of: numbers, amounts with their units, ratios, texts and names.
import { EmbeddedActionsParser, type IToken, type TokenType, tokenMatcher } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import { readNumber } from "./literals.ts";
import { negate } from "./operators.ts";
import { end, spanOf } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Expr, Insert, QuantityPart, Text, UnitText, Word } from "./tree.ts";

export const UNIT_TOKENS: readonly TokenType[] = [T.Name, T.SlashUnit, T.DegreeUnit, T.PowerUnit, T.Percent];

/** Not to be used by itself: the last class that extends it analyses the whole. */
export class LiteralGrammar extends EmbeddedActionsParser {
  /** Text that the tokens were cut from; line breaks in it part `4` from a column named on the next line. */
  source = "";
  /**
   * Texts met on the way, to be cut and filled when the statement is done: the parser cannot be entered
   * twice.
   */
  texts: { readonly image: string; readonly offset: number; readonly pieces: (string | Insert)[] }[] = [];

  /**
   * `validate`: the parser's own check of the grammar (ambiguities, left recursion). It costs a tenth of a
   * second and can only find a mistake in these classes, so a test asks for it and nothing else does.
   */
  constructor(validate: boolean) {
    super([...T.ALL_TOKENS], { recoveryEnabled: false, maxLookahead: 2, skipValidations: !validate });
  }

  literal = this.RULE("literal", (): Expr => {
    let made!: Expr;
    this.OR([
      {
        ALT: () => {
          made = this.SUBRULE(this.amount);
        },
      },
      {
        ALT: () => {
          const ratio = this.CONSUME(T.Ratio);
          let by: "mass" | "volume" | undefined;
          this.OPTION(() =>
            this.OR2([
              {
                ALT: () => {
                  this.CONSUME(T.ByMass);
                  by = "mass";
                },
              },
              {
                ALT: () => {
                  this.CONSUME(T.ByVolume);
                  by = "volume";
                },
              },
            ]),
          );
          made = this.ACTION((): Expr => {
            const [first, second] = ratio.image.split(":").map(Number) as [number, number];
            const at = { start: ratio.startOffset, end: end(this.LA(0)) };
            return by === undefined
              ? { is: "taper", at, thickness: first, run: second }
              : { is: "mix", at, first, second, by };
          });
        },
      },
      {
        ALT: () => {
          const word = this.CONSUME(T.Yes);
          made = this.ACTION(() => ({ is: "truth", at: spanOf(word), value: true }));
        },
      },
      {
        ALT: () => {
          const word = this.CONSUME(T.No);
          made = this.ACTION(() => ({ is: "truth", at: spanOf(word), value: false }));
        },
      },
      {
        ALT: () => {
          const text = this.SUBRULE(this.text);
          made = this.ACTION(() => ({ is: "text", at: text.at, text }));
        },
      },
    ]);
    return made;
  });

  /** A number, or a quantity of one part or several: `1 h 30 min`. */
  amount = this.RULE("amount", (): Expr => {
    const first = this.SUBRULE(this.number);
    const parts: QuantityPart[] = [];
    this.OPTION({
      GATE: () => this.unitFollows(),
      DEF: () => {
        const unit = this.SUBRULE(this.unit);
        this.ACTION(() => parts.push({ value: first.value, unit }));
        this.MANY({
          GATE: () => this.sameLine(),
          DEF: () => {
            const more = this.SUBRULE2(this.number);
            const moreUnit = this.SUBRULE2(this.unit);
            this.ACTION(() => parts.push({ value: more.value, unit: moreUnit }));
          },
        });
      },
    });
    return this.ACTION(
      (): Expr =>
        parts.length === 0
          ? { is: "number", at: first.at, value: first.value }
          : { is: "quantity", at: { start: first.at.start, end: parts.at(-1)!.unit.at.end }, parts },
    );
  });

  number = this.RULE("number", (): { at: Span; value: number } => {
    const token = this.OR([
      { ALT: () => this.CONSUME(T.Mixed) },
      { ALT: () => this.CONSUME(T.Fraction) },
      { ALT: () => this.CONSUME(T.NumberToken) },
    ]);
    return this.ACTION(() => ({ at: spanOf(token), value: readNumber(token.image) }));
  });

  unit = this.RULE("unit", (): UnitText => {
    const token = this.OR([
      { ALT: () => this.CONSUME(T.Name) },
      { ALT: () => this.CONSUME(T.SlashUnit) },
      { ALT: () => this.CONSUME(T.DegreeUnit) },
      { ALT: () => this.CONSUME(T.PowerUnit) },
      { ALT: () => this.CONSUME(T.Percent) },
    ]);
    let apart = false;
    let by: "mass" | "volume" | undefined;
    this.OPTION(() =>
      this.OR2([
        {
          ALT: () => {
            this.CONSUME(T.Apart);
            apart = true;
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.ByMass);
            by = "mass";
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.ByVolume);
            by = "volume";
          },
        },
      ]),
    );
    return this.ACTION(() => ({
      at: { start: token.startOffset, end: end(this.LA(0)) },
      text: token.image,
      apart,
      ...(by ? { by } : {}),
    }));
  });

  text = this.RULE("text", (): Text => {
    const token = this.CONSUME(T.TextToken);
    return this.ACTION(() => {
      const pieces: (string | Insert)[] = [];
      this.texts.push({ image: token.image, offset: token.startOffset, pieces });
      return { at: spanOf(token), pieces };
    });
  });

  name = this.RULE("name", (): Word => {
    const token = this.CONSUME(T.Name);
    return this.ACTION(() => ({ at: spanOf(token), text: token.image }));
  });

  /** One word or amount of `is one of`. */
  item = this.RULE("item", (): Expr => {
    let made!: Expr;
    this.OR([
      {
        ALT: () => {
          made = this.SUBRULE(this.signedLiteral);
        },
      },
      {
        ALT: () => {
          const word = this.SUBRULE(this.name);
          made = this.ACTION(() => ({ is: "name", at: word.at, name: word.text }));
        },
      },
    ]);
    return made;
  });

  signedLiteral = this.RULE("signedLiteral", (): Expr => {
    const signs: IToken[] = [];
    this.MANY(() => {
      signs.push(this.CONSUME(T.Minus));
    });
    const inner = this.SUBRULE(this.literal);
    return this.ACTION(() => signs.reduceRight<Expr>(negate, inner));
  });

  // ───────────── looking ahead ─────────────

  /** A number and the name after it are a quantity only on one line: a list's next column starts a line. */
  protected unitFollows(): boolean {
    return UNIT_TOKENS.some((type) => tokenMatcher(this.LA(1), type)) && this.sameLine();
  }

  protected sameLine(): boolean {
    const [before, next] = [this.LA(0), this.LA(1)];
    if (next.startOffset === undefined || Number.isNaN(next.startOffset)) return false;
    return !this.source.slice(end(before), next.startOffset).includes("\n");
  }
}
