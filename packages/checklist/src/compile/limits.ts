import type { Region } from '@quarrel/analysis';
import { type Allowance, type Limits, subjectsOf } from '@quarrel/model';
import type { ChecklistLimit } from '../checklist.js';
import { conditionLabel, simplified, wordTest } from './conditions.js';
import type { Context } from './context.js';

/** What one profile allows, and the jobs that it leaves out. */
interface Drawn {
  readonly profile: Limits;
  readonly allowance: Allowance;
  readonly beyond: Region;
}

/**
 * The limits that the procedure keeps within, as far as the situations at hand leave them open. Where several profiles draw a
 * line, the tightest stands: a job that it lets pass is within the others as well.
 */
export function limitsOf(context: Context): readonly ChecklistLimit[] {
  const { situations } = context.run;
  const { nowhere } = situations.store;
  const drawn = profilesOf(context).flatMap((profile) =>
    profile.allowances.flatMap((allowance): Drawn[] => {
      const beyond = beyondOf(allowance, context);
      return beyond === nowhere ? [] : [{ profile, allowance, beyond }];
    }),
  );
  return drawn
    .filter((one, at) => !drawn.some((other, index) => isTighter(other, one, index < at, context)))
    .map((one) => limitOf(one, drawn, context));
}

function profilesOf({ procedure }: Context): readonly Limits[] {
  return procedure.within.flatMap(({ name }) => procedure.vocabulary.limits.find((one) => one.name === name) ?? []);
}

/** Where the limit is asked and not kept. */
function beyondOf({ test, when }: Allowance, { run, possible }: Context): Region {
  const { store } = run.situations;
  const asked = when === undefined ? possible : store.and(possible, run.situations.region(when).holds);
  return store.and(asked, run.situations.region(test).fails);
}

/** Whether `one` leaves out all that `other` does; of two that leave out the same, the earlier is taken. */
function isTighter(one: Drawn, other: Drawn, isEarlier: boolean, { run }: Context): boolean {
  if (one === other || run.situations.store.without(other.beyond, one.beyond) !== run.situations.store.nowhere) {
    return false;
  }
  return one.beyond !== other.beyond || isEarlier;
}

function limitOf(one: Drawn, all: readonly Drawn[], context: Context): ChecklistLimit {
  const { situations } = context.run;
  const { vocabulary } = context.procedure;
  const { profile, allowance, beyond } = one;
  const { test, when, because, source } = allowance;
  const asked = when === undefined ? undefined : simplified(when, context.possible, situations);
  const same = all.filter((other) => other !== one && other.beyond === beyond).map((other) => other.profile.label);
  return {
    profile: { name: profile.name, label: profile.label },
    allows: {
      test: situations.describe(situations.region(test).holds, situations.store.everywhere),
      text: wordTest(test, vocabulary),
    },
    ...(asked === undefined || asked.kind === 'always'
      ? {}
      : {
          when: {
            test: situations.describe(situations.region(asked).holds, situations.store.everywhere),
            text: wordTest(asked, vocabulary),
          },
        }),
    asks: subjectsOf(test).map((name) => ({ name, label: conditionLabel(name, vocabulary) })),
    ...(same.length === 0 ? {} : { alsoIn: [...new Set(same)] }),
    ...(because === undefined ? {} : { because }),
    ...(source === undefined ? {} : { source }),
  };
}
