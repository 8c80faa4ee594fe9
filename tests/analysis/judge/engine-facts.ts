import type { Moment, Questions, Region, ResponseQuestion, Run, StepRecord } from '@quarrel/analysis';
import type { Procedure, Rule, Test } from '@quarrel/model';
import { stepsOf } from '@quarrel/model';
import type { Cells } from './cells.js';
import { type Facts, lines, noFacts, noteClock, noteSpan, noteWhere, type Times } from './facts.js';

/** The questions that a procedure's rules put: responses and final tests are numbered in the order of their rules. */
export function questionsOf({ vocabulary }: Procedure): Questions {
  const acts = new Set<string>();
  const responses: ResponseQuestion[] = [];
  const finals: Test[] = [];
  for (const { pattern, when } of vocabulary.rules) {
    if (pattern.kind === 'precedence') acts.add(pattern.first);
    if (pattern.kind === 'absence') acts.add(pattern.after);
    if (pattern.kind === 'final') finals.push(pattern.test);
    if (pattern.kind === 'response') {
      const { trigger, response, within } = pattern;
      responses.push({
        trigger,
        response,
        ...(within === undefined ? {} : { within: within.si }),
        ...(when === undefined ? {} : { when }),
      });
    }
  }
  return { acts: [...acts], responses, finals, tests: [] };
}

/** What the engine's run says, asked situation by situation through its public face. */
export function engineFacts(run: Run, procedure: Procedure, cells: Cells): Facts {
  const facts = noFacts();
  const asking: Asking = { run, procedure, cells, facts, questions: questionsOf(procedure) };
  noteRegion(asking, lines.covered, run.covered);
  stepsOf(procedure).forEach((step, number) => {
    const record = run.steps[number];
    if (record === undefined) return;
    noteMoment(asking, lines.before(number), record.before);
    noteMoment(asking, lines.after(number), record.after);
    noteRegion(asking, lines.outlasted(number), record.outlasted);
    if (record.meanwhile !== undefined) noteSpan(facts, lines.meanwhile(number), record.meanwhile);
    noteActs(asking, number, record, step.hold);
    noteThings(asking, number, record);
  });
  run.cases.forEach((record, number) => {
    noteRegion(asking, lines.asked(number), record.asked);
    noteRegion(asking, lines.holds(number), record.holds);
    for (const { condition, region } of record.unknown) noteRegion(asking, lines.unread(number, condition), region);
  });
  run.fallthroughs.forEach((region, number) => {
    noteRegion(asking, lines.fallthrough(number), region);
  });
  run.repeats.forEach((record, number) => {
    noteRegion(asking, lines.entered(number), record.entered);
    noteRegion(asking, lines.passed(number), record.passed);
    if (record.time !== undefined) noteSpan(facts, lines.repeatTime(number), record.time);
  });
  for (const { by, region, clock } of run.stops) {
    const name = by.kind === 'stop' ? `stop ${by.stop}` : by.kind === 'repeat' ? `repeat ${by.repeat}` : '';
    const place = by.kind === 'effect' ? `step ${by.step}, effect ${by.effect}` : name;
    noteRegion(asking, lines.stopped(place), region);
    eachIn(asking, region, (cell, scenario) => noteTimes(facts, lines.stopClock(place), cell, clock.at(scenario)));
  }
  noteEnd(asking);
  return facts;
}

interface Asking {
  readonly run: Run;
  readonly procedure: Procedure;
  readonly cells: Cells;
  readonly facts: Facts;
  readonly questions: Questions;
}

type EachCell = (cell: number, scenario: Cells['scenarios'][number]) => void;

function eachIn({ run, cells }: Asking, region: Region, visit: EachCell): void {
  if (region.kind === 'leaf' && !region.value) return;
  cells.scenarios.forEach((scenario, cell) => {
    if (run.situations.holdsIn(region, scenario)) visit(cell, scenario);
  });
}

function noteRegion(asking: Asking, line: string, region: Region): void {
  eachIn(asking, region, (cell) => noteWhere(asking.facts, line, cell));
}

/** A clock without a time where some run comes says nothing, and the comparison finds that. */
function noteTimes(facts: Facts, line: string, cell: number, times: Times | undefined): void {
  if (times !== undefined) noteClock(facts, line, cell, times);
}

function noteMoment(asking: Asking, name: string, moment: Moment): void {
  const { run, procedure, facts } = asking;
  const { states, observations, readings } = procedure.vocabulary;
  noteRegion(asking, lines.reached(name), moment.reached);
  eachIn(asking, moment.reached, (cell, scenario) => {
    noteTimes(facts, lines.clock(name), cell, moment.clock.at(scenario));
  });
  for (const state of states) {
    const values = moment.state(state.name);
    asking.cells.scenarios.forEach((scenario, cell) => {
      for (const value of run.situations.valueIn(values, scenario)) {
        noteWhere(facts, lines.state(name, state.name, value), cell);
      }
    });
  }
  for (const condition of [...observations, ...readings]) {
    noteRegion(asking, lines.mayNotKnow(name, condition.name), moment.mayNotKnow(condition.name));
  }
}

function noteActs(asking: Asking, step: number, record: StepRecord, hold: StepHold): void {
  const { questions, procedure } = asking;
  for (const act of record.acts) {
    const { effect } = act;
    noteRegion(asking, lines.act(step, effect), act.reached);
    act.unmet.forEach((region, need) => {
      noteRegion(asking, lines.unmet(step, effect, need), region);
    });
    for (const { hazard, region } of act.unannounced)
      noteRegion(asking, lines.unannounced(step, effect, hazard), region);
    for (const other of questions.acts) {
      noteRegion(asking, lines.mayHaveDone(step, effect, other), act.mayHaveDone(other));
      noteRegion(asking, lines.mayNotHaveDone(step, effect, other), act.mayNotHaveDone(other));
    }
    for (const { response, region } of act.late) noteRegion(asking, lines.late(step, effect, response), region);
    for (const { response, region } of act.unanswered) {
      noteRegion(asking, lines.unanswered(step, effect, response), region);
    }
    procedure.vocabulary.rules.forEach((rule, number) => {
      const region = brokenAt(rule, act, hold);
      if (region !== undefined) noteAsked(asking, lines.breach(number, step, effect), region, rule.when);
    });
  }
}

type StepHold = ReturnType<typeof stepsOf>[number]['hold'];

/** Where an act may break a rule, whatever its `when` says; `undefined` where the two have nothing to do with each other. */
function brokenAt({ pattern }: Rule, act: StepRecord['acts'][number], hold: StepHold): Region | undefined {
  switch (pattern.kind) {
    case 'precedence':
      return pattern.later === act.act ? act.mayNotHaveDone(pattern.first) : undefined;
    case 'absence':
      return pattern.act === act.act ? act.mayHaveDone(pattern.after) : undefined;
    case 'hold': {
      if (pattern.act !== act.act) return undefined;
      const tooShort = (hold?.least?.si ?? 0) < pattern.quantity.si;
      const tooLong = hold !== undefined && (hold.most === undefined || hold.most.si > pattern.quantity.si);
      return (pattern.bound === 'at-least' ? tooShort : tooLong) ? act.reached : undefined;
    }
    case 'response':
    case 'final':
      return undefined;
  }
}

/** The part of a region in which a rule with this `when` asks. */
function noteAsked(asking: Asking, line: string, region: Region, when: Test | undefined): void {
  const { situations } = asking.run;
  const asks = when === undefined ? undefined : situations.region(when).holds;
  eachIn(asking, region, (cell, scenario) => {
    if (asks === undefined || situations.holdsIn(asks, scenario)) noteWhere(asking.facts, line, cell);
  });
}

function noteThings(asking: Asking, step: number, record: StepRecord): void {
  const { run, procedure, facts } = asking;
  for (const { effect, reached, thing, choice } of record.things) {
    noteRegion(asking, lines.thing(step, effect), reached);
    asking.cells.scenarios.forEach((scenario, cell) => {
      const taken = run.situations.valueIn(thing, scenario);
      if (taken !== undefined) noteWhere(facts, lines.takes(step, effect, taken), cell);
    });
    if (choice === undefined) continue;
    choice.cases.forEach((region, number) => {
      noteRegion(asking, lines.choiceCase(step, effect, number), region);
    });
    noteRegion(asking, lines.rest(step, effect), choice.rest);
    if (procedure.choices[choice.choice]?.otherwise === undefined) {
      noteRegion(asking, lines.gap(step, effect), choice.rest);
    }
    for (const { earlier, later, region } of choice.clashes) {
      noteRegion(asking, lines.clash(step, effect, earlier, later), region);
    }
    for (const { condition, region } of choice.unknown) {
      noteRegion(asking, lines.choiceUnread(step, effect, condition), region);
    }
  }
}

function noteEnd(asking: Asking): void {
  const { run, procedure } = asking;
  noteMoment(asking, lines.end, run.end.moment);
  run.end.unmet.forEach((region, number) => {
    noteRegion(asking, lines.finalUnmet(number), region);
  });
  const finals = procedure.vocabulary.rules.flatMap((rule, number) =>
    rule.pattern.kind === 'final' ? [{ number, when: rule.when }] : [],
  );
  finals.forEach(({ number, when }, index) => {
    const region = run.end.unmet[index];
    if (region !== undefined) noteAsked(asking, lines.breachAtEnd(number), region, when);
  });
}
