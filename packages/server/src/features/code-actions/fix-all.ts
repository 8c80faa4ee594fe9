import type { Edit, Mend } from '@quarrel/checks';
import type { SheetDocument } from '@quarrel/language';
import type { SourceRange } from '@quarrel/model';
import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { overlap, rangeOf } from '../../check/places.js';
import type { LanguageServices } from '../../services.js';
import { workspaceEdit } from './edits.js';

/** What only a whole sheet is asked for: every slip of the pen with one way to put it right, which changes no meaning. */
const kind = `${CodeActionKind.SourceFixAll}.quarrel`;

/** Misspelt units of which only one can be meant, and curly quotation marks; nothing where there are none. */
export function fixAll(document: SheetDocument, services: LanguageServices): CodeAction[] {
  const uri = document.uri.toString();
  const units = services.check.Checks.of(document)
    .findings.filter(({ rule, range, mends }) => rule === 'unknown-unit' && range.uri === uri && mends.length === 1)
    .flatMap(({ mends }) => mends.flatMap(({ edits }) => edits));
  const edits = [...units, ...quoteEdits(document, services)];
  return edits.length === 0 ? [] : [{ title: 'Put all plain slips right', kind, edit: workspaceEdit(edits) }];
}

/** Straight quotation marks for the text at a place. */
export function straightQuotes(document: SheetDocument, at: SourceRange, services: LanguageServices): readonly Mend[] {
  const edits = quoteEdits(document, services).filter(({ range }) => overlap(rangeOf(range), rangeOf(at)));
  return edits.length === 0 ? [] : [{ title: 'Write straight quotation marks', edits }];
}

/** Texts between curly quotation marks, which end on their line, between straight ones. */
function quoteEdits({ textDocument, uri }: SheetDocument, { parser }: LanguageServices): readonly Edit[] {
  return parser.Lexer.tokenize(textDocument.getText()).tokens.flatMap(({ image, startOffset, tokenType }) => {
    if (tokenType.name !== 'STRING' || !/^[“”„][^\\]*[“”"]$/.test(image)) return [];
    const [start, end] = [startOffset, startOffset + image.length].map((offset) => textDocument.positionAt(offset));
    if (start === undefined || end === undefined) return [];
    const range = {
      uri: uri.toString(),
      start: { line: start.line, column: start.character },
      end: { line: end.line, column: end.character },
    };
    return [{ range, text: `"${image.slice(1, -1)}"` }];
  });
}
