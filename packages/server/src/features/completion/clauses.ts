import { ast } from '@quarrel/language';
import type { Item } from '../place/place.js';
import { type Asked, declared } from './asked.js';

/** The clauses of the step around the cursor. */
export function clausesOf({ place }: Pick<Asked, 'place'>): readonly Item[] {
  return place.levels.findLast(({ frame }) => frame?.rule === 'Step' || frame?.rule === 'InStep')?.items ?? [];
}

export function clausesBefore(asked: Pick<Asked, 'place'>): readonly Item[] {
  return clausesOf(asked).filter(({ isBehind }) => !isBehind);
}

/** The names in clauses that begin with a word. */
export function namesIn(items: readonly Item[], word: string): readonly string[] {
  return items
    .filter(({ tokens }) => tokens[0]?.image === word)
    .flatMap(({ tokens, rest }) =>
      [...tokens, ...rest].filter(({ tokenType }) => tokenType.name === 'ID').map(({ image }) => image),
    );
}

/** What acts done one after another make of the states. */
export function madeBy(acts: readonly string[], asked: Asked): ReadonlyMap<string, string> {
  const made = new Map<string, string>();
  for (const name of acts) {
    const act = declared(asked, 'act', name);
    for (const { made: one } of ast.isAct(act) ? act.makes : []) {
      if (one?.state !== undefined && one.value !== undefined) made.set(one.state.$refText, one.value.$refText);
    }
  }
  return made;
}
