import type { Problem } from '@quarrel/model';
import { AstUtils, GrammarAST, URI } from 'langium';
import type * as ast from '../generated/ast.js';
import { outOfPlace } from '../lower/out-of-place.js';
import { Places } from '../lower/places.js';
import { syntaxProblems } from '../lower/syntax-problems.js';
import type { SheetDocument } from '../names/imports.js';
import { sharedServices } from '../read/read-sheets.js';
import { arrange } from './arrange.js';
import { print } from './print.js';
import { wordsOf } from './words.js';

/** A sheet in the house style, or as it was where its text cannot be read. */
export interface Formatted {
  readonly text: string;
  /** What keeps the sheet from being formatted; empty where it was. */
  readonly problems: readonly Problem[];
}

/**
 * The text of a sheet in the house style: two-space indent, a clause a line, short blocks on one line where the author has
 * them so, at most one empty line, at most 100 columns where a line can be folded. Words, texts and comments stay as they are
 * and in their order; line ends and a byte order mark too. `uri` is the sheet's address in problems.
 */
export function formatText(text: string, uri = 'quarrel:/sheet.quarrel'): Formatted {
  const { shared, quarrel } = sharedServices();
  const document = shared.workspace.LangiumDocumentFactory.fromString<ast.Sheet>(text, URI.parse(uri));
  const problems = unreadable(document, (whole) => quarrel.parser.Lexer.tokenize(whole).tokens);
  if (problems.length > 0) return { text, problems };
  language ??= wordsIn(quarrel.Grammar);
  const { words, rest } = wordsOf(document.parseResult.value, text, language);
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? '\n';
  const printed = print(arrange(words, rest), lineEnd);
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  return { text: `${mark}${printed}${printed === '' ? '' : lineEnd}`, problems };
}

/** Made once, with the services that it is read from. */
let language: ReadonlySet<string> | undefined;

function wordsIn(grammar: GrammarAST.Grammar): ReadonlySet<string> {
  return new Set(
    AstUtils.streamAllContents(grammar)
      .filter(GrammarAST.isKeyword)
      .map(({ value }) => value),
  );
}

/** What does not stand where the grammar has it, so that there is no telling how it should look. */
function unreadable(document: SheetDocument, tokensOf: Parameters<typeof outOfPlace>[2]): readonly Problem[] {
  const places = new Places(document.uri.toString());
  return [...syntaxProblems(document, places), ...outOfPlace(document, places, tokensOf)];
}
