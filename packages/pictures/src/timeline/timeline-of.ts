import { interpret, numberingOf, type Run } from '@quarrel/analysis';
import { type Condition, flowIn, type Procedure, type SourceRange, stepsOf, type Test } from '@quarrel/model';
import { mentionedIn } from '../conditions.js';
import { happens, type Placed, placedIn } from '../findings.js';
import type { Nothing, Picked } from '../picked.js';
import { picksOf } from '../picks.js';
import { groundOf, type Pictured } from '../pictured.js';
import { completed, declinedShown, keepPossible, situationShown } from '../situation.js';
import { testOf } from '../suppose.js';
import { timesOf } from '../times.js';
import { nothingCovered, tooTangled } from '../wording.js';
import { partsOf } from './parts.js';
import type { StopShown, Timeline } from './timeline.js';

export type TimelineOf = { readonly kind: 'timeline'; readonly timeline: Timeline } | Nothing;

/**
 * A procedure in one situation: the one picked, completed with what one would think of first. It is run once more, from that
 * situation alone; what is looked at again on the way can come out as anything covered.
 */
export function timelineOf(pictured: Pictured, picked: Picked): TimelineOf {
  const { procedure } = pictured;
  const ground = groundOf(pictured);
  if (ground === undefined) return tooTangled(procedure, []);
  const kept = keepPossible(ground, picked);
  const scenario = completed(ground.situations, kept);
  if (scenario === undefined) return nothingCovered(procedure);
  const placed = placedIn(pictured);
  const { observations, readings } = procedure.vocabulary;
  const conditions: readonly Condition[] = [...observations, ...readings];
  const suppose = conditions.flatMap((one) => testsFor(one, scenario[one.name]));
  const tests = placed.flatMap(({ where }) => (where === undefined ? [] : [where]));
  const interpretation = interpret(procedure, { acts: [], responses: [], finals: [], tests }, { suppose });
  if (interpretation.kind === 'too-tangled') return tooTangled(procedure, interpretation.conditions);
  const { run } = interpretation;
  const declined = declinedShown(kept.declined, picked, conditions, scenario);
  const total = run.end.moment.clock.over(run.end.moment.reached);
  return {
    kind: 'timeline',
    timeline: {
      procedure: { name: procedure.name, label: procedure.label, range: procedure.range },
      situation: situationShown(procedure, scenario, declined),
      conditions: picksOf(mentionedIn(procedure), ground, scenario),
      parts: partsOf({ procedure, run, numbering: numberingOf(procedure), placed }),
      ...(total === undefined ? {} : { total: timesOf(total) }),
      stops: stopsOf(procedure, run),
      findings: elsewhere(placed, run),
    },
  };
}

function testsFor(condition: Condition, value: string | number | undefined): readonly Test[] {
  return value === undefined ? [] : [testOf(condition, value)];
}

function elsewhere(placed: readonly Placed[], run: Run): Timeline['findings'] {
  return placed
    .filter((one) => one.steps.length === 0 && happens(one, [], run, run.situations.store.everywhere))
    .map(({ shown }) => shown);
}

function stopsOf(procedure: Procedure, run: Run): readonly StopShown[] {
  const steps = stepsOf(procedure);
  const flow = [...flowIn(procedure.body)];
  const stops = flow.filter((part) => part.kind === 'stop');
  const repeats = flow.filter((part) => part.kind === 'repeat');
  return run.stops.flatMap(({ by, reason, region, clock }) => {
    const time = clock.over(region);
    const step = by.kind === 'effect' ? steps[by.step] : undefined;
    const range: SourceRange | undefined =
      by.kind === 'effect'
        ? step?.effects[by.effect]?.range
        : (by.kind === 'stop' ? stops[by.stop] : repeats[by.repeat])?.range;
    if (time === undefined || range === undefined) return [];
    return [{ reason, ...(step === undefined ? {} : { step: step.id }), range, at: timesOf(time) }];
  });
}
