// Stands in the built pages for what the parser's package can do and the grammar does not ask for: going on
// after a mistake, listing what may come next, and walks over a tree of its own.

export const IN_RULE_RECOVERY_EXCEPTION = "";

/** Of recovery, the one part that is also asked for without it: the names of the rules that are open. */
export class Recoverable {
  declare readonly RULE_STACK: readonly number[];
  declare readonly RULE_STACK_IDX: number;
  declare shortRuleNameToFullName: (name: number) => string;
  initRecoverable(): void {}
  getHumanReadableRuleStack(): readonly string[] {
    return this.RULE_STACK.slice(0, this.RULE_STACK_IDX + 1).map((name) =>
      this.shortRuleNameToFullName(name),
    );
  }
}

export class ContentAssist {
  initContentAssist(): void {}
}

/** The grammar makes its own tree: what would build another is called and does nothing. */
export class TreeBuilder {
  initTreeBuilder(): void {}
  cstInvocationStateUpdate(): void {}
  cstFinallyStateUpdate(): void {}
  cstPostTerminal(): void {}
  cstPostNonTerminal(): void {}
  cstPostRule(): void {}
}

const nothing = (): undefined => undefined;
export {
  nothing as createBaseSemanticVisitorConstructor,
  nothing as createBaseVisitorConstructorWithDefaults,
};
