import { type CstNode, DefaultValueConverter, type GrammarAST, type ValueType } from 'langium';

/** Takes the quotation marks off texts, also where one of them is missing. `\"` and `\\` stand for the character itself. */
export class QuarrelValueConverter extends DefaultValueConverter {
  protected override runConverter(rule: GrammarAST.AbstractRule, input: string, cstNode: CstNode): ValueType {
    if (rule.name !== 'STRING') return super.runConverter(rule, input, cstNode);
    return input
      .replace(/^["“”„]/, '')
      .replace(/(?<!\\)((?:\\\\)*)["“”]$/, '$1')
      .replace(/\\(["\\])/g, '$1');
  }
}
