import type { Block, Effect, Flow, Procedure, Repeat, Step, When } from '@quarrel/model';
import type { Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import type { Numbering } from './numbering.js';
import type { StepRecord } from './records.js';

/** What is needed to go through a procedure from its end to its start. */
interface Retrace {
  readonly situations: Situations;
  readonly covered: Region;
  readonly numbering: Numbering;
  readonly steps: readonly StepRecord[];
}

/**
 * The situations at the start from which some run comes to the end: what leads to the end is traced backwards, because a
 * condition that is read again has another value at the end than at the start.
 */
export function startsThatEnd(
  situations: Situations,
  procedure: Procedure,
  covered: Region,
  numbering: Numbering,
  steps: readonly StepRecord[],
): Region {
  const retrace: Retrace = { situations, covered, numbering, steps };
  return situations.store.and(covered, beforeBlock(retrace, procedure.body, situations.store.everywhere));
}

/** From where a run can come to `after`, which lies behind the block. */
function beforeBlock(retrace: Retrace, block: Block, after: Region): Region {
  return block.reduceRight((goal, part) => beforePart(retrace, part, goal), after);
}

function beforePart(retrace: Retrace, part: Flow, after: Region): Region {
  switch (part.kind) {
    case 'step':
      return beforeStep(retrace, part, after);
    case 'stage':
      return beforeBlock(retrace, part.body, after);
    case 'when':
      return beforeWhen(retrace, part, after);
    case 'repeat':
      return beforeRepeat(retrace, part, after);
    case 'stop':
      return retrace.situations.store.nowhere;
  }
}

function beforeWhen(retrace: Retrace, part: When, after: Region): Region {
  const { situations } = retrace;
  const { store } = situations;
  return part.cases.reduceRight(
    (otherwise, { test, body }) => {
      const { holds, fails } = situations.region(test);
      return store.or(store.and(holds, beforeBlock(retrace, body, after)), store.and(fails, otherwise));
    },
    beforeBlock(retrace, part.otherwise ?? [], after),
  );
}

/** The goal may be seen after any pass, so one more pass can only add ways to get on. */
function beforeRepeat(retrace: Retrace, part: Repeat, after: Region): Region {
  const { store } = retrace.situations;
  let before = beforeBlock(retrace, part.body, after);
  for (let pass = 1; pass !== part.atMost; pass++) {
    const more = store.or(before, beforeBlock(retrace, part.body, store.or(after, before)));
    if (more === before) break;
    before = more;
  }
  return before;
}

function beforeStep(retrace: Retrace, step: Step, after: Region): Region {
  const record = retrace.steps[retrace.numbering.of(step)];
  return step.effects.reduceRight(
    (goal, effect, index) => beforeEffect(retrace, effect, goal, firstLearning(step, index), record),
    after,
  );
}

/** Whether no earlier effect of the step has told what this one tells. */
function firstLearning(step: Step, index: number): boolean {
  const effect = step.effects[index];
  const told = effect?.kind === 'read' || effect?.kind === 'observe' ? effect.condition : undefined;
  return !step.effects
    .slice(0, index)
    .some((one) => (one.kind === 'read' || one.kind === 'observe') && one.condition === told);
}

function beforeEffect(
  retrace: Retrace,
  effect: Effect,
  after: Region,
  first: boolean,
  record: StepRecord | undefined,
): Region {
  const { situations } = retrace;
  const { store } = situations;
  switch (effect.kind) {
    case 'meanwhile':
      return beforeBlock(retrace, effect.body, after);
    case 'observe':
    case 'read': {
      const level = situations.levelOf(effect.condition);
      if (level === undefined) return after;
      const stops = effect.kind === 'read' && effect.accept?.orElseStop !== undefined;
      const goal = stops ? store.and(after, situations.spanRegion(effect.condition, effect.accept?.span ?? {})) : after;
      return beforeLearning(retrace, effect.condition, level, goal, first ? record : undefined);
    }
    default:
      return after;
  }
}

/** Where the condition was known before, it may have had any value; elsewhere it is what it is. */
function beforeLearning(
  retrace: Retrace,
  condition: string,
  level: number,
  goal: Region,
  record: StepRecord | undefined,
): Region {
  const { store } = retrace.situations;
  const again = store.forget(store.and(goal, retrace.covered), level, (a, b) => a || b);
  if (record === undefined) return again;
  const reached = record.before.reached;
  const unknown = record.before.mayNotKnow(condition);
  const known = record.before.mayKnow(condition);
  return store.and(reached, store.or(store.and(unknown, goal), store.and(known, again)));
}
