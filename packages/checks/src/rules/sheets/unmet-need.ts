import type { ActRecord } from '@quarrel/analysis';
import type { Act, Need, Step, Test } from '@quarrel/model';
import type { Draft, FlowRule, Work } from '../../rule.js';
import { isUncertain } from '../../tests.js';
import { anyOf, testInWords } from '../../words.js';
import { isSomewhere, union } from '../../work.js';

/** An act is done where what it needs is not so. Named needs speak under their own names. */
export const unmetNeed: FlowRule = {
  name: 'unmet-need',
  family: 'sheets',
  severity: 'error',
  title: 'An act is done where what it needs is not so',
  *run(work) {
    for (const [number, step] of work.steps.entries()) {
      const faults = faultsAt(number, work);
      for (const name of new Set(faults.map(({ need }) => need.rule))) {
        const ofName = faults.filter(({ need }) => need.rule === name);
        const first = ofName[0];
        if (first !== undefined) yield { ...draftOf(first, ofName, number, step, work), rule: name };
      }
    }
  },
};

interface Fault {
  readonly record: ActRecord;
  readonly act: Act;
  readonly need: Need;
  readonly region: ActRecord['reached'];
}

function faultsAt(number: number, work: Work): readonly Fault[] {
  return (work.run.steps[number]?.acts ?? []).flatMap((record) => {
    const act = work.procedure.vocabulary.acts.find(({ name }) => name === record.act);
    return (act?.needs ?? []).flatMap((need, index) => {
      const region = record.unmet[index];
      if (act === undefined || region === undefined || isUncertain(need.test) || !isSomewhere(work, region)) return [];
      return [{ record, act, need, region }];
    });
  });
}

function draftOf(first: Fault, all: readonly Fault[], number: number, step: Step, work: Work): Draft {
  const { record, act, need } = first;
  return {
    range: (step.effects[record.effect] ?? step).range,
    message: `"${act.name}" needs ${needInWords(need.test, work)}, but here ${otherwise(first, number, work)}.`,
    because: need.because,
    source: need.source,
    advice: adviceOn(need.test, work),
    related: [{ message: `"${act.name}" asks for it here`, range: need.range }],
    step: number,
    where: {
      region: union(
        work,
        all.map(({ region }) => region),
      ),
      reached: union(
        work,
        all.map((fault) => fault.record.reached),
      ),
      before: number,
    },
  };
}

function needInWords(test: Test, work: Work): string {
  if (test.kind !== 'is' || !isState(test.subject, work)) return testInWords(test);
  return `${test.subject} ${test.negated ? 'not ' : ''}${anyOf(test.values)}`;
}

/** What is so instead: the values that the state can have, where the start of the step still tells. */
function otherwise({ need, region }: Fault, number: number, work: Work): string {
  const { test } = need;
  if (test.kind !== 'is' || !isState(test.subject, work)) return 'that is not so';
  const moment = work.run.steps[number]?.before;
  const possible = moment === undefined ? [] : work.run.situations.values(moment.state(test.subject), region);
  const wrong = new Set(
    possible.flatMap(({ value }) => [...value]).filter((value) => test.values.includes(value) === test.negated),
  );
  const state = work.procedure.vocabulary.states.find(({ name }) => name === test.subject);
  const inOrder = (state?.values ?? []).map(({ name }) => name).filter((value) => wrong.has(value));
  if (inOrder.length === 0) return 'it can be otherwise';
  return test.negated ? `it can be ${anyOf(inOrder)}` : `it can still be ${anyOf(inOrder)}`;
}

function adviceOn(test: Test, work: Work): string {
  if (test.kind !== 'is' || !isState(test.subject, work)) {
    return `Do it only where ${testInWords(test)}, or see to that before.`;
  }
  const makers = work.procedure.vocabulary.acts
    .filter(({ makes }) =>
      makes.some(({ state, value }) => state === test.subject && test.values.includes(value) !== test.negated),
    )
    .map(({ name }) => name);
  return makers.length === 0
    ? 'Confirm it with a check before this step, or do this step elsewhere.'
    : `In these situations too, do ${anyOf(makers)} before this step, or stop.`;
}

function isState(name: string, work: Work): boolean {
  return work.procedure.vocabulary.states.some((state) => state.name === name);
}
