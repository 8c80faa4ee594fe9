import type { Region } from '@quarrel/analysis';
import { subjectsOf } from '@quarrel/model';
import { narrowedCovers } from '../../mends/covers.js';
import { conditionsIn } from '../../mends/situations.js';
import type { FlowRule, Work } from '../../rule.js';
import { allOf } from '../../words.js';
import { isSomewhere } from '../../work.js';

/**
 * Situations that `covers` takes in and from which the work never comes to its end. Looked at only over the conditions that
 * `covers` names: a referral that depends on anything else is not promised to be a repair.
 */
export const coversButAlwaysStops: FlowRule = {
  name: 'covers-but-always-stops',
  family: 'flow',
  severity: 'warning',
  title: 'The procedure covers situations in which the work always stops',
  *run(work) {
    const { procedure, run } = work;
    const { store } = run.situations;
    if (run.stops.length === 0) return;
    const ended = overNamed(run.end.from, work);
    const region = store.without(overNamed(run.covered, work), ended);
    const lost = store.and(region, run.covered);
    if (!isSomewhere(work, lost)) return;
    const met = run.stops.filter((stop) => isSomewhere(work, store.and(stop.region, lost)));
    // Stops met elsewhere as well do not explain why the work always stops here, unless there are no others.
    const own = met.filter((stop) => !isSomewhere(work, store.without(stop.region, lost)));
    const reasons = (own.length > 0 ? own : met).map((stop) => `"${stop.reason}"`);
    yield {
      range: procedure.coversRange ?? procedure.range,
      message: `The work never comes to its end in some situations that are covered. It stops there: ${allOf([...new Set(reasons)])}`,
      because: 'Whoever reads what is covered takes the job on, and sends the customer away halfway.',
      advice: 'Narrow "covers", or let the work go on there.',
      mends: () => (isFoundAgain(lost, work) ? [] : narrowedCovers(lost, work)),
      where: { region: lost, reached: run.covered, before: work.steps.length },
    };
  },
};

/** Whether a job can come to a value that is left out, or away from one, where it is read again: other jobs may stop then. */
function isFoundAgain(region: Region, work: Work): boolean {
  const again = new Set([...work.layout.foundAgain.values()].flat());
  return conditionsIn(work.run.situations.describe(region, work.run.covered), work).some((name) => again.has(name));
}

/** The region, whatever value conditions have that `covers` does not name. */
function overNamed(region: Region, work: Work): Region {
  const { situations } = work.run;
  const named = new Set(work.procedure.covers.flatMap(subjectsOf));
  return situations.axes.reduce(
    (joined, axis, level) => (named.has(axis.name) ? joined : situations.store.forget(joined, level, either)),
    region,
  );
}

const either = (a: boolean, b: boolean): boolean => a || b;
