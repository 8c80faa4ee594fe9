import type { ActRecord } from '@quarrel/analysis';
import type { Act, Need, State, Step, Test } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { mendsByMaking, spotBefore } from '../../mends/make.js';
import { changesBefore } from '../../mends/makers.js';
import { foundOutIn } from '../../mends/situations.js';
import type { Draft, FlowRule, Work } from '../../rule.js';
import { isUncertain, partsOf } from '../../tests.js';
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
  const missing = missingState(first, number, work);
  return {
    range: (step.effects[record.effect] ?? step).range,
    message: `"${act.name}" needs ${factOf(need.test, missing)}.`,
    because: need.because,
    source: need.source,
    advice: adviceOn(first, missing, work),
    related: [{ message: `"${act.name}" asks for it here`, range: need.range }],
    mends: () => met(all, number, step, work),
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

/** Steps before it that meet what all the faults ask; none where the step itself changes it before it needs it. */
function met(faults: readonly Fault[], number: number, step: Step, work: Work): readonly Mend[] {
  if (faults.some(({ record, need }) => changesBefore(step, record.effect, need.test, work))) return [];
  const last = faults.at(-1)?.record.effect ?? 0;
  const changing = foundOutIn(step, 0, last);
  const again = work.layout.foundAgain.get(number) ?? [];
  const spot = spotBefore(step, number, changing, work);
  if (spot === undefined || again.some((condition) => changing.has(condition))) return [];
  const wish = {
    tests: faults.map(({ need }) => need.test),
    kept: faults.flatMap(({ act, record }) => metNeeds(act, record, work)),
    region: union(
      work,
      faults.map(({ region }) => region),
    ),
  };
  return mendsByMaking(wish, spot, work, faults[0]?.act);
}

function metNeeds({ needs }: Act, { unmet }: ActRecord, work: Work): readonly Test[] {
  return needs
    .filter((_, index) => !isSomewhere(work, unmet[index] ?? work.run.situations.store.nowhere))
    .map(({ test }) => test);
}

type StateTest = Extract<Test, { kind: 'is' }>;

/** A state that an act asks about, with the wrong values that it can have. */
interface MissingState {
  readonly test: StateTest;
  readonly state: State;
  readonly wrong: readonly string[];
}

/** The state that fails: what the need asks, or the first part of an `and` that can be otherwise at the start of the step. */
function missingState({ need, region }: Fault, number: number, work: Work): MissingState | undefined {
  const parts = need.test.kind === 'and' ? need.test.tests : [need.test];
  const asked = parts.flatMap((test) => {
    const state =
      test.kind === 'is' ? work.procedure.vocabulary.states.find(({ name }) => name === test.subject) : undefined;
    return test.kind === 'is' && state !== undefined ? [{ test, state }] : [];
  });
  const moment = work.run.steps[number]?.before;
  const found = asked.map(({ test, state }) => {
    const possible = moment === undefined ? [] : work.run.situations.values(moment.state(state.name), region);
    const values = new Set(possible.flatMap(({ value }) => [...value]));
    const wrong = state.values
      .map(({ name }) => name)
      .filter((name) => values.has(name) && test.values.includes(name) === test.negated);
    return { test, state, wrong };
  });
  return found.find(({ wrong }) => wrong.length > 0) ?? (parts.length === 1 ? found[0] : undefined);
}

function factOf(test: Test, missing: MissingState | undefined): string {
  if (missing === undefined) return `${testInWords(test)}, but here that is not so`;
  const { test: asked, state, wrong } = missing;
  const wanted = `${state.name} ${asked.negated ? 'not ' : ''}${anyOf(asked.values)}`;
  if (wrong.length === 0) return `${wanted}, but here it can be otherwise`;
  return `${wanted}, but here it can ${isBefore(asked, wrong, state) ? 'still ' : ''}be ${anyOf(wrong)}`;
}

/** Whether a state comes by all of these values before it comes to what the test asks: its values are declared in that order. */
function isBefore(test: StateTest, values: readonly string[], state: State): boolean {
  const names = state.values.map(({ name }) => name);
  const asked = Math.min(...test.values.map((value) => names.indexOf(value)));
  return !test.negated && values.every((value) => names.indexOf(value) < asked);
}

function adviceOn({ act, need }: Fault, missing: MissingState | undefined, work: Work): string {
  const makers = missing === undefined ? makersOfAny(need.test, act, work) : makersOf(missing, act, work);
  if (makers.length > 0) {
    return `In these situations too, do ${anyOf(makers.map(({ name }) => name))} before this step, or stop.`;
  }
  if (missing === undefined) return `Do it only where ${testInWords(need.test)}.`;
  const [first] = missing.state.values;
  return first !== undefined && wantedOf(missing).includes(first.name)
    ? `Do it earlier, while ${missing.state.name} is still ${first.name}, or leave it out in these situations.`
    : 'Confirm it with a check before this step, or leave the act out in these situations.';
}

function wantedOf({ test, state }: MissingState): readonly string[] {
  if (!test.negated) return test.values;
  return state.values.map(({ name }) => name).filter((name) => !test.values.includes(name));
}

/** The acts that make the first value asked for; where none does, those for the next: a later value may lie beyond this step. */
function makersOf(missing: MissingState, act: Act, work: Work): readonly Act[] {
  const others = work.procedure.vocabulary.acts.filter((other) => other !== act);
  const byValue = wantedOf(missing).map((wanted) =>
    others.filter(({ makes }) => makes.some(({ state, value }) => state === missing.state.name && value === wanted)),
  );
  return byValue.find((makers) => makers.length > 0) ?? [];
}

/** The acts that make some part of a test true. */
function makersOfAny(test: Test, act: Act, work: Work): readonly Act[] {
  const parts = partsOf(test);
  return work.procedure.vocabulary.acts.filter(
    (other) =>
      other !== act &&
      parts.some(
        (part) =>
          part.kind === 'is' &&
          other.makes.some(
            ({ state, value }) => state === part.subject && part.values.includes(value) !== part.negated,
          ),
      ),
  );
}
