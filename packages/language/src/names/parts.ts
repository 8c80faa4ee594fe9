import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';

export type ProcedurePart = ast.Procedure['parts'][number];

/**
 * The parts of a procedure, with those that stand behind it and outside of any declaration: a `}` too many closes a procedure
 * early, and what follows would be lost with it.
 */
export function partsOf(procedure: ast.Procedure): readonly ProcedurePart[] {
  const sheet = procedure.$container;
  if (!ast.isSheet(sheet) || sheet.strays.length === 0) return procedure.parts;
  const strays = sheet.strays
    .filter((stray) => declarationBefore(stray, sheet) === procedure)
    .flatMap((stray) => stray.flow ?? stray.clause ?? []);
  return strays.length === 0 ? procedure.parts : [...procedure.parts, ...strays];
}

/** The procedure or variation that a part belongs to. */
export function procedureAround(part: AstNode): ast.Procedure | ast.Variation | undefined {
  for (let at: AstNode | undefined = part; at !== undefined; at = at.$container) {
    if (ast.isProcedure(at) || ast.isVariation(at)) return at;
    if (ast.isStray(at)) {
      const before = declarationBefore(at, at.$container);
      return ast.isProcedure(before) ? before : undefined;
    }
  }
  return undefined;
}

/** The last declaration that begins before a stray part. */
function declarationBefore(stray: ast.Stray, sheet: ast.Sheet): ast.Declaration | undefined {
  const offset = stray.$cstNode?.offset ?? 0;
  return sheet.declarations.findLast((declaration) => (declaration.$cstNode?.offset ?? 0) < offset);
}
