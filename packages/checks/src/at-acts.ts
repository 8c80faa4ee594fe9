import type { ActRecord, Region } from '@quarrel/analysis';
import type { Rule, Step } from '@quarrel/model';
import type { Mend } from './finding.js';
import { foundOutIn } from './mends/situations.js';
import type { Draft, Work } from './rule.js';
import { isUncertain } from './tests.js';
import { isSomewhere, whereAtStep } from './work.js';

/** What a rule says where it is broken. */
export interface Said {
  readonly message: string;
  readonly advice: string;
  /** How the step at fault can be mended. */
  mends(fault: StepFault, work: Work): readonly Mend[];
}

/** A step that breaks a rule. */
export interface StepFault {
  readonly step: Step;
  readonly number: number;
  /** The situations, as they are when the acts at fault are done. */
  readonly region: Region;
  /** The conditions that the step finds out before that. */
  readonly changing: ReadonlySet<string>;
}

/** One finding for every step that does `act` where `broken` says so and the rule asks for something. */
export function* atActs(
  rule: Rule,
  act: string,
  work: Work,
  broken: (record: ActRecord) => Region,
  said: Said,
): Iterable<Draft> {
  for (const [number, step] of work.steps.entries()) {
    const faults = (work.run.steps[number]?.acts ?? [])
      .filter((record) => record.act === act)
      .map((record) => ({ record, region: whereAsked(rule, broken(record), work) }))
      .filter(({ region }) => isSomewhere(work, region));
    const first = faults[0];
    if (first === undefined) continue;
    const where = whereAtStep(work, number, faults);
    const changing = foundOutIn(step, 0, faults.at(-1)?.record.effect ?? 0);
    yield {
      message: said.message,
      advice: said.advice,
      ...grounds(rule),
      range: (step.effects[first.record.effect] ?? step).range,
      mends: () => said.mends({ step, number, region: where.region, changing }, work),
      step: number,
      where,
    };
  }
}

/** The part of a region in which the rule asks for something. A condition that could not be read asks for nothing. */
export function whereAsked(rule: Rule, region: Region, work: Work): Region {
  const { situations } = work.run;
  if (rule.when === undefined) return region;
  return isUncertain(rule.when)
    ? situations.store.nowhere
    : situations.store.and(region, situations.region(rule.when).holds);
}

/** What a finding takes from the rule it speaks for. */
export function grounds(rule: Rule): Pick<Draft, 'rule' | 'severity' | 'because' | 'source' | 'related'> {
  return {
    rule: rule.name,
    severity: rule.severity,
    because: rule.because,
    source: rule.source,
    related: [{ message: `the rule "${rule.name}"`, range: rule.range }],
  };
}
