import type { Problem } from '@quarrel/model';
import { AstUtils } from 'langium';
import * as ast from '../generated/ast.js';
import type { SheetDocument } from '../names/imports.js';
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
  for (const procedure of sheet.declarations.filter(ast.isProcedure)) {
    const [stray] = procedure.strays;
    if ((stray === undefined && procedure.closers.length === 0) || isMisread(procedure, document)) continue;
    const range = stray === undefined ? places.ofProperty(procedure, 'closers') : places.ofFirstWord(stray);
    const tokens = tokensOf(document.textDocument.getText());
    const surplus = surplusBrace(
      tokens,
      document.textDocument.offsetAt({ line: range.start.line, character: range.start.column }),
    );
    const guess =
      surplus === undefined || surplus.startLine === range.start.line + 1
        ? ''
        : ` Probably the \`}\` in line ${surplus.startLine} is one too many.`;
    const word = stray?.$cstNode?.text.match(/^\S+/)?.[0];
    const message =
      word === undefined
        ? `This \`}\` closes nothing.${guess}`
        : `\`${word}\` stands outside of the procedure "${procedure.name ?? ''}", which has been closed above.${guess}`;
    problems.push({ rule: 'syntax', message, range });
  }
  return problems;
}

/** Where a step lacks its `{`; its clauses are read all the same. */
export function missingBrace({ unopened: [first] }: ast.Step, places: Places): Problem | undefined {
  if (first === undefined) return undefined;
  const message = 'Behind the text of a step comes `{`, then what is done.';
  return { rule: 'syntax', message, range: places.ofFirstWord(first) };
}

/** Whether something in a procedure could not be read, which is reported there: its braces may then be counted wrongly. */
function isMisread(procedure: ast.Procedure, document: SheetDocument): boolean {
  const start = procedure.$cstNode?.offset ?? 0;
  const end = procedure.$cstNode?.end ?? 0;
  const faults = document.parseResult.parserErrors;
  return (
    faults.some(({ token }) => token.startOffset >= start && token.startOffset <= end) ||
    AstUtils.streamAst(procedure).some((node) => ast.isStep(node) && node.unopened.length > 0)
  );
}
