import type * as ast from '../generated/ast.js';
import type { StepIds } from './flow.js';

/**
 * Gives every step of a procedure its id: its name, or else one made from its text, unique in the procedure with `-2`, `-3`
 * behind it. Names come first, so that a step without one never takes the name of another.
 */
export function stepIds(steps: Iterable<ast.Step>): StepIds {
  const all = [...steps];
  const ids = new Map<ast.Step, string>();
  const taken = new Set<string>();
  const counts = new Map<string, number>();
  const give = (step: ast.Step, base: string): void => {
    let id = base;
    let count = counts.get(base) ?? 1;
    while (taken.has(id)) id = `${base}-${++count}`;
    counts.set(base, count);
    taken.add(id);
    ids.set(step, id);
  };
  for (const step of all) if (step.name !== undefined) give(step, step.name);
  for (const step of all) if (step.name === undefined) give(step, slug(step.text ?? ''));
  return { of: (step) => ids.get(step) ?? step.name ?? slug(step.text ?? '') };
}

/** Lower-case ASCII words with hyphens between them, at most 40 characters of whole words. */
export function slug(text: string): string {
  const words = text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[\u0300-\u036f'’]/g, '')
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');
  let made = words[0]?.slice(0, 40) ?? 'step';
  for (const word of words.slice(1)) {
    if (made.length + 1 + word.length > 40) break;
    made += `-${word}`;
  }
  return made;
}
