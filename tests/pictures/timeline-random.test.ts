import { type Procedure, stepsOf } from '@quarrel/model';
import { type Part, type Timeline, type Times, timelineOf } from '@quarrel/pictures';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from '../analysis/judge/arbitrary.js';
import { cellsOf } from '../analysis/judge/cells.js';
import { type Facts, lines } from '../analysis/judge/facts.js';
import { seed } from '../analysis/judge/seed.js';
import { stepsIn } from './parts.js';
import { picturedOf, timesAt, timesOf, walkedFrom } from './walked.js';

test('the timeline of a situation is what a walk from there finds: steps, clocks, things in hand, passes and stops', () => {
  fc.assert(
    fc.property(procedures(), fc.nat(), (procedure, pick) => {
      const cells = cellsOf(procedure);
      const covered = cells.scenarios.filter((_, cell) => cells.covered[cell]);
      const picked = covered[pick % Math.max(1, covered.length)];
      if (picked === undefined) {
        expect(timelineOf(picturedOf(procedure), {}).kind).toBe('nothing');
        return;
      }
      const walked = walkedFrom(procedure, cells, (one) => one === picked);
      fc.pre(walked !== undefined);
      const answer = timelineOf(picturedOf(procedure), picked);
      if (walked === undefined || answer.kind !== 'timeline') throw new Error(answer.kind);
      const { timeline } = answer;
      expect(timeline.situation).toMatchObject({ picked, declined: [] });
      expect(timeline.total).toEqual(timesAt(walked, lines.clock(lines.end)));
      expect(shownSteps(timeline)).toEqual(walkedSteps(procedure, walked));
      expect(shownStops(timeline)).toEqual(walkedStops(procedure, walked));
      expect(shownRepeats(timeline)).toEqual(walkedRepeats(walked));
    }),
    { numRuns: 400, ...seed() },
  );
});

function shownSteps({ parts }: Timeline) {
  return stepsIn(parts).map(({ id, start, end, things }) => ({
    id,
    start,
    end,
    things: things.map(({ options }) => options.map(({ name }) => name).sort()),
  }));
}

function walkedSteps(procedure: Procedure, walked: Facts) {
  return stepsOf(procedure).flatMap((step, number) => {
    const start = timesAt(walked, lines.clock(lines.before(number)));
    if (start === undefined) return [];
    const things = step.effects.flatMap((effect, index) => {
      if (effect.kind !== 'with') return [];
      const all = procedure.vocabulary.things.map(({ name }) => name);
      return [all.filter((name) => walked.where.has(lines.takes(number, index, name))).sort()];
    });
    return [{ id: step.id, start, end: timesAt(walked, lines.clock(lines.after(number))), things }];
  });
}

function shownStops({ stops }: Timeline) {
  return stops.map(({ reason, at }) => `${reason} ${at.least} ${at.most}`).sort();
}

function walkedStops(procedure: Procedure, walked: Facts) {
  const reasons = reasonsIn(procedure);
  return [...walked.clocks.keys()]
    .flatMap((line) => {
      const by = line.replace(lines.stopClock(''), '');
      const reason = reasons.get(by);
      const at = timesAt(walked, line);
      return reason === undefined || at === undefined ? [] : [`${reason} ${at.least} ${at.most}`];
    })
    .sort();
}

/** Why each part that can stop does so, by the judge's name for it. */
function reasonsIn(procedure: Procedure): ReadonlyMap<string, string> {
  const reasons = new Map<string, string>();
  const counts = { stop: 0, repeat: 0, step: 0 };
  const visit = (parts: Procedure['body']): void => {
    for (const part of parts) {
      switch (part.kind) {
        case 'stop':
          reasons.set(`stop ${counts.stop++}`, part.reason);
          break;
        case 'repeat':
          if (part.orElseStop !== undefined) reasons.set(`repeat ${counts.repeat}`, part.orElseStop);
          counts.repeat++;
          visit(part.body);
          break;
        case 'stage':
          visit(part.body);
          break;
        case 'when':
          for (const one of part.cases) visit(one.body);
          visit(part.otherwise ?? []);
          break;
        case 'step': {
          const number = counts.step++;
          for (const [index, effect] of part.effects.entries()) {
            const why = effect.kind === 'read' ? effect.accept?.orElseStop : undefined;
            const reason = effect.kind === 'check' ? effect.orElseStop : why;
            if (reason !== undefined) reasons.set(`step ${number}, effect ${index}`, reason);
            if (effect.kind === 'meanwhile') visit(effect.body);
          }
          break;
        }
      }
    }
  };
  visit(procedure.body);
  return reasons;
}

/** From the least to the most over all passes, as the walk spans them. */
function walkedRepeats(walked: Facts) {
  const found = [...walked.spans].filter(([line]) => line.startsWith('repeat'));
  return found.map(([, time]) => JSON.stringify(timesOf(time))).sort();
}

function shownRepeats({ parts }: Timeline) {
  return repeatTimes(parts)
    .map((time) => JSON.stringify(time))
    .sort();
}

function repeatTimes(parts: readonly Part[]): readonly Times[] {
  return parts.flatMap((part): readonly Times[] => {
    switch (part.kind) {
      case 'repeat':
        return [...(part.time === undefined ? [] : [part.time]), ...repeatTimes(part.parts)];
      case 'step':
        return repeatTimes(part.meanwhile);
      case 'branch':
        return part.ways.flatMap((way) => repeatTimes(way.parts));
      case 'stop':
        return [];
      default:
        return repeatTimes(part.parts);
    }
  });
}
