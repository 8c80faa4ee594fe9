import { DefaultLexer, DefaultLexerErrorMessageProvider, type LangiumCoreServices, type LexerResult } from 'langium';
import { isName } from './naming.js';
import { openSteps } from './repair.js';
import type { Token, TokenType } from './tokens.js';

type LexerFault = LexerResult['errors'][number];

/**
 * Reads a text into words. Beyond the grammar's terminals it decides which words of the language stand as names, and reports
 * what the terminals read with a forgiving eye: texts and comments that are not closed, curly quotation marks, `1,5` for `1.5`.
 */
export class QuarrelLexer extends DefaultLexer {
  private readonly name: TokenType;
  private readonly brace: TokenType;
  private readonly isWord: (token: Token) => boolean;

  constructor(services: LangiumCoreServices) {
    super(services);
    const { ID, '{': brace } = this.definition;
    if (ID === undefined || brace === undefined) throw new TypeError('the grammar has names and braces');
    this.name = ID;
    this.brace = brace;
    const words = new Set(Object.values(this.definition).filter(({ PATTERN }) => typeof PATTERN === 'string'));
    this.isWord = (token) => words.has(token.tokenType) && /^[a-z]/.test(token.image);
  }

  override tokenize(text: string): LexerResult {
    const result = super.tokenize(text);
    const { tokens } = result;
    const isNameToken = (token: Token): boolean => token.tokenType === this.name;
    for (const [at, token] of tokens.entries()) {
      if (this.isWord(token) && isName(token, tokens[at - 1], tokens[at - 2], tokens[at + 1], isNameToken)) {
        token.tokenType = this.name;
        if (this.name.tokenTypeIdx !== undefined) token.tokenTypeIdx = this.name.tokenTypeIdx;
      }
    }
    const opened = openSteps(tokens, this.brace);
    // A text that is not closed explains what is odd on its line, so it goes first.
    const faults = [...[...tokens, ...result.hidden].flatMap(faultOf), ...result.errors, ...opened.faults];
    return { ...result, tokens: opened.tokens, errors: firstOfLines(faults) };
  }
}

/** The first fault of every line, in the order of lines. */
function firstOfLines(faults: readonly LexerFault[]): LexerFault[] {
  const lines = new Map<number | undefined, LexerFault>();
  for (const fault of faults) if (!lines.has(fault.line)) lines.set(fault.line, fault);
  return [...lines.values()].sort((a, b) => a.offset - b.offset);
}

/** The messages for characters that no word can begin with. */
export class QuarrelLexerMessages extends DefaultLexerErrorMessageProvider {
  override buildUnexpectedCharactersMessage(fullText: string, startOffset: number): string {
    return strayMessage(String.fromCodePoint(fullText.codePointAt(startOffset) ?? 0));
  }
}

function strayMessage(character: string): string {
  if (character === '_') return 'A name is written with hyphens: `name-it`, not with `_`.';
  if (character === "'") return 'A text stands in double quotation marks: `"…"`.';
  if (/[°%µμ]/.test(character))
    return `\`${character}\` belongs to a unit, and a unit stands behind a number: \`20 °C\`.`;
  return `\`${character}\` has no meaning here. Take it out, or put it inside a text: "…".`;
}

function faultOf(token: Token): LexerFault[] {
  const { image } = token;
  const fault = (message: string): LexerFault[] => [
    {
      offset: token.startOffset,
      line: token.startLine,
      column: token.startColumn,
      length: image.length,
      message,
    },
  ];
  switch (token.tokenType.name) {
    case 'OPEN_COMMENT':
      return fault('This comment is not closed: `*/` is missing, so all that follows is taken for a comment.');
    case 'NUMBER':
      return image.includes(',') ? fault(`Write the number with a point: \`${image.replace(',', '.')}\`.`) : [];
    case 'STRING':
      if (/^[“”„]/.test(image)) return fault('Write straight quotation marks around a text: `"…"`.');
      return /^"(\\.|[^"\\])*"$/.test(image)
        ? []
        : fault('The text is not closed: `"` is missing at the end of this line.');
    default:
      return [];
  }
}
