// The parser's own check of the tokens and the grammar: it runs here only, because it finds nothing but
// mistakes in their classes.
import { expect, test } from "vitest";
import { ClauseGrammar } from "../../../../engine/language/syntax/grammar-clauses.ts";
import { Grammar } from "../../../../engine/language/syntax/grammar.ts";
import { makeLexer } from "../../../../engine/language/syntax/tokens.ts";

test("no token hides another", () => {
  expect(makeLexer(true).lexerDefinitionErrors).toEqual([]);
});

test("the grammar is free of ambiguities and left recursion", () => {
  expect(() => new Grammar(true)).not.toThrow();
});

test("the check finds an ambiguity", () => {
  class Ambiguous extends ClauseGrammar {
    sameTwice = this.RULE("sameTwice", () => {
      this.OR([{ ALT: () => this.SUBRULE(this.name) }, { ALT: () => this.SUBRULE2(this.name) }]);
    });
    analyse(): void {
      this.performSelfAnalysis();
    }
  }
  expect(() => new Ambiguous(false).analyse()).not.toThrow();
  expect(() => new Ambiguous(true).analyse()).toThrow(/mbigu/);
});
