import {
  AbstractParserErrorMessageProvider,
  type AstNode,
  createParser,
  type LangiumCoreServices,
  LangiumParser,
  type ParseResult,
  type ParserOptions,
} from 'langium';
import { type SyntaxFault, wordFaults } from './faults.js';

/** Langium's parser, with messages in the author's words and one message for one fault. */
class QuarrelParser extends LangiumParser {
  /** Takes over when a parse had to be given up, which leaves this one in the middle of its work. */
  private successor: LangiumParser | undefined;

  constructor(private readonly services: LangiumCoreServices) {
    super(services);
  }

  override parse<T extends AstNode = AstNode>(input: string, options?: ParserOptions): ParseResult<T> {
    if (this.successor !== undefined) return this.successor.parse<T>(input, options);
    if (deepest(input) > deepestRead && this.isDeep(input)) return this.tooDeep(super.parse<T>('', options), input);
    try {
      const result = super.parse<T>(input, options);
      if (result.parserErrors.length === 0) return result;
      const { tokens } = this.services.parser.Lexer.tokenize(input);
      return { ...result, parserErrors: wordFaults(result.parserErrors, result.lexerErrors, tokens) };
    } catch (error) {
      // Blocks and brackets are read by calls within calls; some thousand of them exhaust what a program has room for.
      if (!(error instanceof RangeError)) throw error;
      this.successor = createQuarrelParser(this.services);
      return this.tooDeep(this.successor.parse<T>('', options), input);
    }
  }

  /** Reading takes longer with the square of the depth, so that a deep sheet is given up before it is begun. */
  private isDeep(input: string): boolean {
    const { tokens } = this.services.parser.Lexer.tokenize(input);
    return deepest(tokens.map(({ image }) => (image.length === 1 ? image : '')).join('')) > deepestRead;
  }

  private tooDeep<T>(nothing: ParseResult<T>, input: string): ParseResult<T> {
    const message = 'Blocks or brackets stand too deep within each other here to be read.';
    const deepest = input.search(/(?:[({][^(){}]*){100}/);
    const offset = Math.max(deepest, 0);
    const line = input.slice(0, offset).split('\n').length;
    return { ...nothing, parserErrors: [], lexerErrors: [{ offset, line, column: 1, length: 1, message }] };
  }
}

/** Blocks and brackets may stand this deep within each other: far deeper than anybody can follow. */
const deepestRead = 300;

/** How deep brackets and braces stand within each other, those in texts and comments counted as well. */
function deepest(input: string): number {
  let depth = 0;
  let most = 0;
  for (const character of input) {
    if (character === '(' || character === '{') most = Math.max(most, ++depth);
    else if (character === ')' || character === '}') depth = Math.max(0, depth - 1);
  }
  return most;
}

export function createQuarrelParser(services: LangiumCoreServices): LangiumParser {
  const parser = new QuarrelParser(services);
  createParser(services.Grammar, parser, services.parser.Lexer.definition);
  parser.finalize();
  return parser;
}

/** Hands the name of the expected token on to `wordFaults`, which knows more of the place than the provider is told. */
export class ExpectedTokens extends AbstractParserErrorMessageProvider {
  override buildMismatchTokenMessage({ expected }: { expected: SyntaxFault['token']['tokenType'] }): string {
    return expected.name.replace(/:KW$/, '');
  }

  override buildNotAllInputParsedMessage(): string {
    return '';
  }

  override buildNoViableAltMessage(): string {
    return '';
  }

  override buildEarlyExitMessage(): string {
    return '';
  }
}
