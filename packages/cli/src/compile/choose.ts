import { nearest } from '@quarrel/language';
import type { Procedure, Sheet } from '@quarrel/model';
import { type Refusal, refusal } from '../io.js';
import { placeOf, type Surroundings } from '../report/text.js';
import { listed } from '../report/words.js';

/** The procedures to compile: all there are, or the one with a name. There is at least one. */
export function choose(
  sheets: readonly Sheet[],
  name: string | undefined,
  surroundings: Surroundings,
): { readonly kind: 'chosen'; readonly procedures: readonly Procedure[] } | Refusal {
  const all = sheets.flatMap(({ procedures }) => procedures);
  if (all.length === 0)
    return refusal('There is no procedure in these sheets.', 'A procedure begins with the word "procedure".');
  if (name === undefined) return { kind: 'chosen', procedures: all };
  const named = all.filter((procedure) => procedure.name === name);
  if (named.length === 1) return { kind: 'chosen', procedures: named };
  if (named.length > 1) {
    const places = named.map(({ range }) => placeOf(range, surroundings));
    return refusal(
      `There are ${named.length} procedures called ${name}: ${listed(places, 'and')}.`,
      'Give the sheet of one of them.',
    );
  }
  const names = all.map((procedure) => procedure.name);
  const near = nearest(name, names);
  return refusal(
    `There is no procedure called "${name}".`,
    near.length === 0
      ? `There ${names.length === 1 ? 'is' : 'are'} ${listed(names, 'and')}.`
      : `Did you mean ${listed(near, 'or')}?`,
  );
}
