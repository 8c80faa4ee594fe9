import type { Problem, SourceRange } from '@quarrel/model';
import type { LangiumDocument } from 'langium';
import { isWorded, type SyntaxFault } from '../syntax/faults.js';
import type { Places } from './places.js';

/** The lines of which something could not be read, from 0. */
export function unreadableLines(document: LangiumDocument): ReadonlySet<number> {
  const { lexerErrors, parserErrors } = document.parseResult;
  const skipped = parserErrors.flatMap((fault) => [
    fault.token,
    ...fault.resyncedTokens,
    ...(isWorded(fault) && fault.marked !== undefined ? [fault.marked] : []),
  ]);
  return new Set([
    ...lexerErrors.map(({ line = 1 }) => line - 1),
    ...skipped.flatMap(({ startLine }) => (startLine === undefined || Number.isNaN(startLine) ? [] : [startLine - 1])),
  ]);
}

/** What could not be read of a sheet: characters, then words out of place. */
export function syntaxProblems(document: LangiumDocument, places: Places): readonly Problem[] {
  const { lexerErrors, parserErrors } = document.parseResult;
  const between = (start: number, end: number): SourceRange => {
    const { textDocument } = document;
    return {
      uri: places.uri,
      start: places.at(textDocument.positionAt(start)),
      end: places.at(textDocument.positionAt(end)),
    };
  };
  const rangeOf = (fault: SyntaxFault): SourceRange => {
    const { startOffset, image } = (isWorded(fault) ? fault.marked : undefined) ?? fault.token;
    // In a sheet without a word there is nothing to mark.
    return Number.isFinite(startOffset) ? between(startOffset, startOffset + image.length) : between(0, 0);
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
