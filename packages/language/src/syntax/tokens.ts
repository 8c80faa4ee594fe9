import { DefaultTokenBuilder, type GrammarAST, type LexerResult } from 'langium';

export type Token = LexerResult['tokens'][number];
export type TokenType = Token['tokenType'];

/** Where a unit may begin, for the lexer's table of first characters. */
const unitStarts = [...'°%µμ', ...'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ', 'º'];
const unitPattern = /[°%µμºA-Za-z](?:(?!\/[/*])[^\s;,{}()"“”„:<>=])*/y;

/**
 * Builds the tokens of the grammar, with one that depends on what stands before it: a unit is read only directly behind a
 * number on the same line, and no word of the language is a unit (`15 to 30 s`, `3 times`). Everywhere else `s`, `m` or `min`
 * are ordinary names.
 */
export class QuarrelTokenBuilder extends DefaultTokenBuilder {
  private words: ReadonlySet<string> = new Set();

  override buildTokens(...args: Parameters<DefaultTokenBuilder['buildTokens']>): TokenType[] {
    const built = super.buildTokens(...args);
    if (!Array.isArray(built)) throw new TypeError('the token builder yields a list');
    const isUnit = (token: TokenType): boolean => token.name === 'UNIT';
    this.words = new Set(
      built.flatMap(({ PATTERN }) => (typeof PATTERN === 'string' && /^[a-z]/.test(PATTERN) ? [PATTERN] : [])),
    );
    // Units go first: `m` is a name as well, and `min` would otherwise be one.
    return [...built.filter(isUnit), ...built.filter((token) => !isUnit(token))];
  }

  protected override buildTerminalToken(terminal: GrammarAST.TerminalRule): TokenType {
    const token = super.buildTerminalToken(terminal);
    if (terminal.name !== 'UNIT') return token;
    const match = (text: string, offset: number, matched: Token[]): [string] | null => {
      const before = matched[matched.length - 1];
      if (before?.tokenType.name !== 'NUMBER' || text.slice(before.startOffset, offset).includes('\n')) return null;
      unitPattern.lastIndex = offset;
      const found = unitPattern.exec(text)?.[0];
      return found === undefined || this.words.has(found) ? null : [found];
    };
    return { ...token, PATTERN: match, LINE_BREAKS: false, START_CHARS_HINT: unitStarts };
  }
}
