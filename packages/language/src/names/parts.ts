import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';

export type ProcedurePart = ast.Procedure['parts'][number];

/**
 * The parts of a procedure, with those that stand behind it and outside of any block: a `}` too many closes a procedure early,
 * and what follows would be lost with it.
 */
export function partsOf(procedure: ast.Procedure): readonly ProcedurePart[] {
  const sheet = procedure.$container;
  if (!ast.isSheet(sheet) || sheet.strays.length === 0) return procedure.parts;
  const strays = sheet.strays
    .filter((stray) => procedureBefore(stray) === procedure)
    .flatMap((stray) => stray.flow ?? stray.clause ?? []);
  return strays.length === 0 ? procedure.parts : [...procedure.parts, ...strays];
}

/** The procedure or variation that a part belongs to. */
export function procedureAround(part: AstNode): ast.Procedure | ast.Variation | undefined {
  for (let at: AstNode | undefined = part; at !== undefined; at = at.$container) {
    if (ast.isProcedure(at) || ast.isVariation(at)) return at;
    if (ast.isStray(at)) return procedureBefore(at);
  }
  return undefined;
}

/** The last procedure that begins before a part that stands out of place. */
export function procedureBefore(stray: ast.Stray): ast.Procedure | undefined {
  const offset = stray.$cstNode?.offset ?? 0;
  return stray.$container.declarations
    .filter(ast.isProcedure)
    .findLast((procedure) => (procedure.$cstNode?.offset ?? 0) < offset);
}
