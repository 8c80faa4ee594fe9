import { isSheetDocument } from '@quarrel/language';
import { TextDocument, URI } from 'langium';
import type { TextEdit } from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import { isFree } from '../place/threads.js';

/** Why a text is no name; nothing where it is one. */
export function spellingFault(name: string, { parser }: LanguageServices): string | undefined {
  const { tokens } = parser.Lexer.tokenize(name);
  const [only] = tokens;
  const isOne = only !== undefined && tokens.length === 1 && only.image === name;
  const isWord = isOne && !isFree(only.tokenType.name) && /^[a-z]/.test(name);
  if (isOne && (only.tokenType.name === 'ID' || isWord)) return undefined;
  return `\`${name}\` is no name: a name begins with a letter, and has letters, digits and single hyphens inside.`;
}

/**
 * Where a name would be taken for something else: a word of the language is a name only beside some neighbours. Told by reading
 * the words of every sheet with the edits made.
 */
export function misreadIn(
  changes: ReadonlyMap<string, readonly TextEdit[]>,
  name: string,
  { parser, shared }: LanguageServices,
): string | undefined {
  for (const [uri, edits] of changes) {
    const document = shared.workspace.LangiumDocuments.getDocument(URI.parse(uri));
    if (document === undefined || !isSheetDocument(document)) continue;
    const { textDocument } = document;
    const kinds = (text: string): readonly string[] =>
      parser.Lexer.tokenize(text).tokens.map(({ tokenType }) => tokenType.name);
    const before = kinds(textDocument.getText());
    const after = kinds(TextDocument.applyEdits(textDocument, [...edits]));
    if (before.length !== after.length || before.some((kind, at) => kind !== after[at])) {
      return `\`${name}\` is a word of the language, and would be misread where the name stands now: take another name.`;
    }
  }
  return undefined;
}
