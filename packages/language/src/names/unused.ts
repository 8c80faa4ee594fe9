import type { Problem } from '@quarrel/model';
import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';
import type { Places } from '../lower/places.js';
import { optional } from '../lower/reader.js';
import { whatIs } from './groups.js';
import type { SheetDocument } from './imports.js';
import { partsOf } from './parts.js';

/** What a sheet with a procedure declares for itself and nobody read refers to. Values, rules and procedures do not count. */
export function* unused(
  document: SheetDocument,
  isReferred: (node: AstNode) => boolean,
  places: Places,
): Generator<Problem> {
  const sheet = document.parseResult.value;
  if (!sheet.declarations.some(ast.isProcedure)) return;
  for (const node of sheet.declarations) {
    const own =
      ast.isAssume(node) || ast.isRule(node) || ast.isExample(node) || ast.isVariation(node) || ast.isProcedure(node)
        ? []
        : [node];
    const chooses = ast.isProcedure(node) ? partsOf(node).filter(ast.isChoose) : [];
    for (const declaration of [...own, ...chooses]) {
      if (declaration.name === undefined || isReferred(declaration)) continue;
      yield {
        rule: 'unused-declaration',
        what: whatIs(declaration),
        name: declaration.name,
        range: places.ofName(declaration),
        ...optional('cut', places.cut(declaration)),
      };
    }
  }
}
