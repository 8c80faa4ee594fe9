import type { Problem, SourceRange } from '@quarrel/model';
import type { LangiumDocument } from 'langium';
import { isEnd, previousOf, type SyntaxFault, startsElsewhere } from '../syntax/faults.js';
import type { Places } from './places.js';

/** What could not be read of a sheet: characters, then words out of place. */
export function syntaxProblems(document: LangiumDocument, places: Places): readonly Problem[] {
  const { lexerErrors, parserErrors } = document.parseResult;
  const between = (start: number, end: number): SourceRange => {
    const from = document.textDocument.positionAt(start);
    const to = document.textDocument.positionAt(end);
    return {
      uri: places.uri,
      start: { line: from.line, column: from.character },
      end: { line: to.line, column: to.character },
    };
  };
  const rangeOf = (fault: SyntaxFault): SourceRange => {
    const previous = previousOf(fault);
    if (previous !== undefined && startsElsewhere(fault, previous)) {
      return between(previous.startOffset, previous.startOffset + previous.image.length);
    }
    if (isEnd(fault.token)) return between(0, document.textDocument.getText().length);
    return between(fault.token.startOffset, fault.token.startOffset + fault.token.image.length);
  };
  return [
    ...lexerErrors.map(
      ({ offset, length, message }): Problem => ({
        rule: 'syntax',
        message,
        range: between(offset, offset + length),
      }),
    ),
    ...parserErrors.map((fault): Problem => ({ rule: 'syntax', message: fault.message, range: rangeOf(fault) })),
  ];
}
