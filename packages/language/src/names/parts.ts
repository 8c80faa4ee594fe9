import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';

export type ProcedurePart = ast.Procedure['parts'][number];

/**
 * The parts of a procedure, with those that stand behind its end: a `}` too many closes a procedure early, and what follows
 * would be lost with it.
 */
export function partsOf(procedure: ast.Procedure): readonly ProcedurePart[] {
  return procedure.strays.length === 0 ? procedure.parts : [...procedure.parts, ...procedure.strays];
}

/** The procedure or variation that a part belongs to. */
export function procedureAround(part: AstNode): ast.Procedure | ast.Variation | undefined {
  for (let at: AstNode | undefined = part; at !== undefined; at = at.$container) {
    if (ast.isProcedure(at) || ast.isVariation(at)) return at;
  }
  return undefined;
}
