import type { Operation, Region } from '@quarrel/analysis';
import type { Block, Flow, Repeat, Step, When } from '@quarrel/model';
import type { Ran } from '../rule.js';

/** For every step, by its number: the situations in which the work can come to it without having done any of some others. */
export function comesWithout(others: ReadonlySet<number>, work: Ran): readonly Region[] {
  const { store } = work.run.situations;
  if (others.size === 0) return work.run.steps.map(({ before }) => before.reached);
  const coming = work.steps.map(() => store.nowhere);
  const numbers = numbersOf(work);
  const forward = (block: Block, from: Region): Region => block.reduce(through, from);
  const through = (from: Region, part: Flow): Region => {
    if (from === store.nowhere) return from;
    switch (part.kind) {
      case 'stop':
        return store.nowhere;
      case 'stage':
        return forward(part.body, from);
      case 'when':
        return bodiesOf(part, work).reduce(
          (joined, { region, body }) => store.or(joined, forward(body, store.and(from, region))),
          store.nowhere,
        );
      case 'repeat':
        return passes(part, from);
      case 'step': {
        const number = numbers.get(part) ?? -1;
        coming[number] = store.or(coming[number] ?? store.nowhere, from);
        return others.has(number) ? store.nowhere : effectsOf(part, number, from);
      }
    }
  };
  const passes = ({ body, atMost = Number.POSITIVE_INFINITY }: Repeat, from: Region): Region => {
    // The goal can be seen after any pass.
    let [now, out] = [from, store.nowhere];
    for (let pass = 1; pass <= atMost; pass += 1) {
      const next = forward(body, now);
      const more = store.or(out, next);
      if (more === out) break;
      [now, out] = [next, more];
    }
    return out;
  };
  const effectsOf = ({ effects }: Step, number: number, from: Region): Region => {
    let now = from;
    const found = new Set<string>();
    for (const effect of effects) {
      if (effect.kind === 'meanwhile') now = forward(effect.body, now);
      if (effect.kind !== 'observe' && effect.kind !== 'read') continue;
      const again = foundAgain(effect.condition, number, found, work);
      if (again !== undefined) {
        const renewed = store.forget(store.and(now, again.known), again.level, either);
        now = store.or(now, store.and(renewed, work.run.covered));
      }
      found.add(effect.condition);
      if (effect.kind === 'read') now = store.and(now, accepted(effect, work));
    }
    return now;
  };
  forward(work.procedure.body, work.run.covered);
  return coming;
}

/** For every step: the situations in which the work can go on from it to its end without doing any of some others. */
export function goesOnWithout(others: ReadonlySet<number>, work: Ran): readonly Region[] {
  const { store } = work.run.situations;
  const going = work.steps.map(() => store.nowhere);
  const numbers = numbersOf(work);
  const backward = (block: Block, to: Region): Region => block.reduceRight(through, to);
  const through = (to: Region, part: Flow): Region => {
    switch (part.kind) {
      case 'stop':
        return store.nowhere;
      case 'stage':
        return backward(part.body, to);
      case 'when':
        return bodiesOf(part, work).reduce(
          (joined, { region, body }) => store.or(joined, store.and(region, backward(body, to))),
          store.nowhere,
        );
      case 'repeat':
        return passes(part, to);
      case 'step': {
        const number = numbers.get(part) ?? -1;
        const from = effectsOf(part, number, to);
        going[number] = store.or(going[number] ?? store.nowhere, from);
        return others.has(number) ? store.nowhere : from;
      }
    }
  };
  const passes = ({ body, atMost = Number.POSITIVE_INFINITY }: Repeat, to: Region): Region => {
    let from = backward(body, to);
    for (let pass = 2; pass <= atMost; pass += 1) {
      const earlier = backward(body, store.or(to, from));
      if (earlier === from) break;
      from = earlier;
    }
    return from;
  };
  const effectsOf = ({ effects }: Step, number: number, to: Region): Region => {
    let now = to;
    const conditions = effects.map((one) => (one.kind === 'observe' || one.kind === 'read' ? one.condition : ''));
    for (const [index, effect] of [...effects.entries()].reverse()) {
      if (effect.kind === 'meanwhile') now = backward(effect.body, now);
      if (effect.kind !== 'observe' && effect.kind !== 'read') continue;
      if (effect.kind === 'read') now = store.and(now, accepted(effect, work));
      const again = foundAgain(effect.condition, number, new Set(conditions.slice(0, index)), work);
      if (again !== undefined) now = store.or(now, store.and(store.forget(now, again.level, either), again.known));
    }
    return now;
  };
  backward(work.procedure.body, work.run.covered);
  return going;
}

function numbersOf({ steps }: Ran): ReadonlyMap<Step, number> {
  return new Map(steps.map((step, number) => [step, number]));
}

const either: Operation<boolean, boolean, boolean> = (a, b) => a || b;

/** Every body of a `when`, with the situations in which it can be taken; what cannot be read may come out either way. */
function bodiesOf(
  { cases, otherwise = [] }: When,
  { run: { situations } }: Ran,
): readonly { readonly region: Region; readonly body: Block }[] {
  let rest = situations.store.everywhere;
  const bodies = cases.map(({ test, body }) => {
    const { holds, fails } = situations.region(test);
    const region = situations.store.and(rest, holds);
    rest = situations.store.and(rest, fails);
    return { region, body };
  });
  return [...bodies, { region: rest, body: otherwise }];
}

/** The readings with which the work goes on. */
function accepted(
  { condition, accept }: Extract<Step['effects'][number], { readonly kind: 'read' }>,
  { run: { situations } }: Ran,
): Region {
  return accept?.orElseStop === undefined ? situations.store.everywhere : situations.spanRegion(condition, accept.span);
}

/**
 * Where a condition is sure to be known already when a step finds it out, and so can come out in any way; nothing where nowhere.
 * Where some runs know it and others do not, only what both can do is followed: what it was can be what it is.
 */
function foundAgain(
  condition: string,
  number: number,
  foundBefore: ReadonlySet<string>,
  { run, layout }: Ran,
): { readonly level: number; readonly known: Region } | undefined {
  const { store } = run.situations;
  const level = run.situations.levelOf(condition);
  const before = run.steps[number]?.before;
  if (level === undefined || before === undefined) return undefined;
  if (foundBefore.has(condition)) return { level, known: store.everywhere };
  if (layout.foundAgain.get(number)?.includes(condition) !== true) return undefined;
  return { level, known: store.without(before.reached, before.mayNotKnow(condition)) };
}
