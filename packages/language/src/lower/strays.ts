import type { Problem } from '@quarrel/model';
import { AstUtils } from 'langium';
import * as ast from '../generated/ast.js';
import type { SheetDocument } from '../names/imports.js';
import { surplusBrace } from '../syntax/braces.js';
import type { Token } from '../syntax/tokens.js';
import type { Places } from './places.js';

/**
 * What stands outside of the block it belongs to: parts of a procedure behind its end, a `}` that closes nothing, `use` below
 * declarations. All such parts behind one declaration have one cause and are reported once, and not at all where a missing `{`
 * has been.
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
  const reported = new Set<ast.Declaration | undefined>();
  for (const stray of sheet.strays) {
    const owner = declarationBefore(stray, sheet);
    if (reported.has(owner)) continue;
    reported.add(owner);
    if (owner !== undefined && lacksBrace(owner, document)) continue;
    const text = document.textDocument.getText();
    const surplus = surplusBrace(tokensOf(text), stray.$cstNode?.offset ?? 0);
    problems.push({ rule: 'syntax', message: messageFor(stray, owner, surplus), range: places.ofFirstWord(stray) });
  }
  return problems;
}

function declarationBefore(stray: ast.Stray, sheet: ast.Sheet): ast.Declaration | undefined {
  const offset = stray.$cstNode?.offset ?? 0;
  return sheet.declarations.findLast((declaration) => (declaration.$cstNode?.offset ?? 0) < offset);
}

/** Whether a `{` was missed in a declaration: its `}` then closes more than it should. */
function lacksBrace(declaration: ast.Declaration, document: SheetDocument): boolean {
  const start = declaration.$cstNode?.offset ?? 0;
  const end = declaration.$cstNode?.end ?? 0;
  const missed = document.parseResult.parserErrors.some(
    ({ token, message }) => token.startOffset >= start && token.startOffset <= end && message.includes('`{`'),
  );
  return missed || AstUtils.streamAst(declaration).some((node) => ast.isStep(node) && node.unopened.length > 0);
}

function messageFor(stray: ast.Stray, owner: ast.Declaration | undefined, surplus: Token | undefined): string {
  const word = stray.$cstNode?.text.match(/^\S+/)?.[0] ?? '}';
  const guess = surplus === undefined ? '' : ` Probably the \`}\` in line ${surplus.startLine} is one too many.`;
  if (stray.brace !== undefined) return `This \`}\` closes nothing.${guess}`;
  if (!ast.isProcedure(owner)) return `\`${word}\` belongs inside a procedure: \`procedure NAME { … }\`.`;
  return `\`${word}\` stands outside of the procedure "${owner.name}", which has been closed above.${guess}`;
}
