import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';

/** Names are unique within their group over everything a sheet can see. */
export type Group = 'subject' | 'act' | 'hazard' | 'rule' | 'thing' | 'limits' | 'procedure' | 'example';

/** Something with a name. `name` is missing where the text is broken. */
export interface Named {
  readonly group: Group;
  readonly node: AstNode & { readonly name?: string };
}

/** What a declaration is called in messages. */
export function whatIs(node: AstNode): string {
  if (ast.isThing(node) || ast.isChoose(node)) return ast.isThing(node) ? node.kind : `choice of a ${node.kind}`;
  if (ast.isNeed(node)) return 'rule';
  return node.$type.toLowerCase();
}

/** Everything that a sheet declares for all to see, in the order written. */
export function* declaredIn(sheet: ast.Sheet): Generator<Named> {
  for (const declaration of sheet.declarations) {
    switch (declaration.$type) {
      case 'Observation':
      case 'Reading':
      case 'State':
        yield { group: 'subject', node: declaration };
        break;
      case 'Act':
        yield { group: 'act', node: declaration };
        for (const need of declaration.needs) {
          if (need.name !== undefined) yield { group: 'rule', node: need };
        }
        break;
      case 'Hazard':
        yield { group: 'hazard', node: declaration };
        break;
      case 'Rule':
        yield { group: 'rule', node: declaration };
        break;
      case 'Thing':
        yield { group: 'thing', node: declaration };
        break;
      case 'Limits':
        yield { group: 'limits', node: declaration };
        break;
      case 'Procedure':
      case 'Variation':
        yield { group: 'procedure', node: declaration };
        break;
      case 'Example':
        yield { group: 'example', node: declaration };
        break;
    }
  }
}
