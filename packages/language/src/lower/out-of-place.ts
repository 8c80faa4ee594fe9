import type { Problem } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import type { SheetDocument } from '../names/imports.js';
import { procedureBefore } from '../names/parts.js';
import { surplusBrace } from '../syntax/braces.js';
import type { Token } from '../syntax/tokens.js';
import type { Places } from './places.js';

/**
 * What stands outside of the block it belongs to: parts of a procedure behind its end, a `}` that closes nothing, `use` below
 * declarations. All such parts behind one procedure have one cause and are reported once, and not at all where it is known.
 */
export function outOfPlace(
  document: SheetDocument,
  places: Places,
  tokensOf: (text: string) => readonly Token[],
): readonly Problem[] {
  const sheet = document.parseResult.value;
  const problems: Problem[] = [];
  const first = sheet.declarations[0]?.$cstNode?.offset;
  for (const use of sheet.uses) {
    if (first === undefined || (use.$cstNode?.offset ?? 0) < first) continue;
    const message = '`use` stands at the top of the sheet, before everything else.';
    problems.push({ rule: 'syntax', message, range: places.ofFirstWord(use) });
  }
  const met = new Set<ast.Procedure | undefined>();
  for (const stray of sheet.strays) {
    const owner = procedureBefore(stray);
    if (met.has(owner)) continue;
    met.add(owner);
    if (hasCause(stray, owner, document)) continue;
    const { textDocument } = document;
    const surplus = surplusBrace(tokensOf(textDocument.getText()), stray.$cstNode?.offset ?? 0);
    const range = places.ofFirstWord(stray);
    const guess = surplus?.startLine === range.start.line + 1 ? undefined : surplus?.startLine;
    problems.push({ rule: 'syntax', message: messageFor(stray, owner, guess), range });
  }
  return problems;
}

/** Whether something above could not be read, which is reported there: braces may then be counted wrongly. */
function hasCause(stray: ast.Stray, owner: ast.Procedure | undefined, document: SheetDocument): boolean {
  const start = owner?.$cstNode?.offset ?? 0;
  const end = stray.$cstNode?.offset ?? 0;
  const { lexerErrors, parserErrors } = document.parseResult;
  const faults = [...lexerErrors.map(({ offset }) => offset), ...parserErrors.map(({ token }) => token.startOffset)];
  return faults.some((offset) => offset >= start && offset <= end);
}

function messageFor(stray: ast.Stray, owner: ast.Procedure | undefined, line: number | undefined): string {
  const guess = line === undefined ? '' : ` Probably the \`}\` in line ${line} is one too many.`;
  if (stray.brace !== undefined) return `This \`}\` closes nothing.${guess}`;
  const word = (stray.flow ?? stray.clause)?.$type.toLowerCase() ?? '';
  if (owner === undefined) return `\`${word}\` belongs inside a procedure: \`procedure NAME { … }\`.`;
  return `\`${word}\` stands outside of the procedure "${owner.name ?? ''}", which has been closed above.${guess}`;
}
