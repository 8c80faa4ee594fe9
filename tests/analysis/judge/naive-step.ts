import type { Act, Block, Choice, Effect, Need, Pattern, Span, Step } from '@quarrel/model';
import { mended, pushedInwards, type StateValues } from './asking.js';
import { lines, noteSpan, noteWhere, type Times } from './facts.js';
import { asks, intoStretch, isAsked, noteMoment, outOfStretch, stretch, unread, type Walk } from './walk.js';
import { type Debt, debtName, debts, later, plus, together, type Way, type Ways } from './ways.js';

/** A step on the way through its effects. Acts happen when it starts, so the clock moves only where it says so. */
interface Within {
  readonly way: Way;
  /** What is done meanwhile is over, and with it the step: the clock stands at its end. */
  readonly over: boolean;
}

interface Place {
  readonly step: Step;
  readonly number: number;
  readonly takes: Times;
  readonly hold: Times;
}

export function walkStep(walk: Walk, step: Step, ways: Ways): Ways {
  const number = walk.stepNumbers.get(step) ?? -1;
  const place: Place = { step, number, takes: timesOf(step.takes), hold: timesOf(step.hold) };
  const [before, behindIt] = [lines.before(number), lines.after(number)];
  const behind: Way[] = [];
  for (const way of ways.values()) {
    noteMoment(walk, before, way);
    let inside: readonly Within[] = [{ way: announce(step, way), over: false }];
    step.effects.forEach((effect, index) => {
      inside = inside.flatMap((within) => walkEffect(walk, place, effect, index, within));
    });
    behind.push(...inside.map((within) => atEnd(place, within)));
  }
  const after = together(behind);
  for (const way of after.values()) noteMoment(walk, behindIt, way);
  return after;
}

function timesOf(span: Span | undefined): Times {
  if (span === undefined) return { least: 0, most: 0 };
  return { least: span.least?.si ?? 0, most: span.most?.si ?? Number.POSITIVE_INFINITY };
}

function announce(step: Step, way: Way): Way {
  const hazards = step.cautions.flatMap((caution) => (caution.kind === 'hazard' ? [caution.hazard] : []));
  return hazards.every((hazard) => way.announced.has(hazard))
    ? way
    : { ...way, announced: new Set([...way.announced, ...hazards]) };
}

function atEnd({ takes, hold }: Place, { way, over }: Within): Way {
  return over ? way : later(way, plus(takes, hold));
}

function walkEffect(walk: Walk, place: Place, effect: Effect, index: number, within: Within): readonly Within[] {
  const stop = (): readonly Within[] => {
    walk.stop(`step ${place.number}, effect ${index}`, atEnd(place, within));
    return [];
  };
  const goOn = (ways: readonly Way[]): readonly Within[] => ways.map((way) => ({ ...within, way }));
  const { way } = within;
  switch (effect.kind) {
    case 'observe':
      return goOn(look(walk, effect.condition, way));
    case 'read':
      return goOn(look(walk, effect.condition, way)).flatMap((after) => {
        const value = walk.cells.scenarios[after.way.cell]?.[effect.condition];
        if (effect.accept === undefined || accepts(effect.accept.span, value)) return [after];
        if (effect.accept.orElseStop === undefined) return [after];
        walk.stop(`step ${place.number}, effect ${index}`, atEnd(place, after));
        return [];
      });
    case 'act': {
      const act = walk.procedure.vocabulary.acts.find((one) => one.name === effect.act);
      return act === undefined ? [within] : goOn(doAct(walk, place, act, index, way));
    }
    case 'with':
      takeInHand(walk, place.number, effect, index, way);
      return [within];
    case 'check': {
      const { confirms } = effect;
      const seen = goOn([
        confirms === undefined ? way : { ...way, states: { ...way.states, [confirms.state]: confirms.value } },
      ]);
      return [...seen, ...(effect.orElseStop === undefined ? [within] : stop())];
    }
    case 'meanwhile':
      return doMeanwhile(walk, place, effect.body, way);
  }
}

/** `observe` and `read`: known from here on; known already, it is looked at again and may have changed. */
function look(walk: Walk, condition: string, way: Way): readonly Way[] {
  if (!way.known.has(condition)) return [{ ...way, known: new Set([...way.known, condition]) }];
  return walk.cells.reread(way.cell, condition).map((cell) => ({ ...way, cell }));
}

function accepts(span: Span, value: string | number | undefined): boolean {
  if (typeof value !== 'number') return false;
  return (span.least === undefined || value >= span.least.si) && (span.most === undefined || value <= span.most.si);
}

function doAct(walk: Walk, place: Place, act: Act, effect: number, way: Way): readonly Way[] {
  const { facts, procedure, cells } = walk;
  const step = place.number;
  const { states: declared, rules } = procedure.vocabulary;
  noteWhere(facts, lines.act(step, effect), way.cell);

  const ways = act.needs.reduce<readonly StateValues[]>(
    (before, need, number) => [...new Set(before.flatMap((states) => afterNeed(need, number, states)))],
    [way.states],
  );
  for (const hazard of act.raises) {
    if (!way.announced.has(hazard)) noteWhere(facts, lines.unannounced(step, effect, hazard), way.cell);
  }
  for (const other of walk.actsAskedAbout) {
    const line = way.done.has(other) ? lines.mayHaveDone : lines.mayNotHaveDone;
    noteWhere(facts, line(step, effect, other), way.cell);
  }
  rules.forEach((rule, number) => {
    if (breaks(rule.pattern, act.name, place, way) && isAsked(walk, rule.when, way)) {
      noteWhere(facts, lines.breach(number, step, effect), way.cell);
    }
  });
  const isNew = walk.actsAskedAbout.includes(act.name) && !way.done.has(act.name);
  const done = isNew ? new Set([...way.done, act.name]) : way.done;
  const owed = owedAfter(walk, step, act.name, effect, way);
  return ways.map((states) => ({ ...way, states: madeBy(act, states), done, owed }));

  /** Met, the states stay; unmet, they are mended; both where the need could not be read. */
  function afterNeed(need: Need, number: number, states: StateValues): readonly StateValues[] {
    return asks(walk, need.test, { ...way, states }).map((met) => {
      if (met) return states;
      noteWhere(facts, lines.unmet(step, effect, number), way.cell);
      return mended(pushedInwards(need.test), states, declared, (subject) => cells.scenarios[way.cell]?.[subject]);
    });
  }
}

/** What is made later replaces what was made before. */
function madeBy({ makes }: Act, states: StateValues): StateValues {
  return { ...states, ...Object.fromEntries(makes.map(({ state, value }) => [state, value])) };
}

/** Whether doing `act` now breaks the rule, where the rule asks. Responses are told from what is owed. */
function breaks(pattern: Pattern, act: string, place: Place, way: Way): boolean {
  switch (pattern.kind) {
    case 'precedence':
      return pattern.later === act && !way.done.has(pattern.first);
    case 'absence':
      return pattern.act === act && way.done.has(pattern.after);
    case 'hold': {
      if (pattern.act !== act) return false;
      const { least, most } = place.hold;
      return pattern.bound === 'at-least' ? least < pattern.quantity.si : most > pattern.quantity.si;
    }
    case 'response':
    case 'final':
      return false;
  }
}

function owedAfter(walk: Walk, step: number, act: string, effect: number, way: Way): Way['owed'] {
  let owed = way.owed;
  walk.responses.forEach(({ rule, trigger, response }, number) => {
    const within = rule.pattern.kind === 'response' ? rule.pattern.within : undefined;
    if (response === act) {
      for (const debt of owed.values()) {
        if (debt.response === number && within !== undefined && debt.elapsed > within.si) {
          noteWhere(walk.facts, lines.late(step, effect, number), way.cell);
        }
      }
      owed = debts([...owed.values()].filter((debt) => debt.response !== number));
    }
    if (trigger === act && isAsked(walk, rule.when, way)) {
      const debt: Debt = { response: number, step, effect, cell: way.cell, depth: way.holds, elapsed: 0 };
      owed = debts([...owed.values(), debt]);
    }
  });
  return owed;
}

function takeInHand(
  walk: Walk,
  step: number,
  effect: Extract<Effect, { kind: 'with' }>,
  index: number,
  way: Way,
): void {
  const { facts, procedure } = walk;
  noteWhere(facts, lines.thing(step, index), way.cell);
  const choice = effect.isChoice ? procedure.choices.find((one) => one.name === effect.thing) : undefined;
  if (!effect.isChoice) noteWhere(facts, lines.takes(step, index, effect.thing), way.cell);
  if (choice !== undefined) choose(walk, step, index, choice, way);
}

function choose(walk: Walk, step: number, effect: number, choice: Choice, way: Way): void {
  const { facts } = walk;
  const holding = choice.cases.flatMap((one, number) =>
    asks(walk, one.test, way).includes(true) ? [{ number, thing: one.thing }] : [],
  );
  for (const { number } of holding) noteWhere(facts, lines.choiceCase(step, effect, number), way.cell);
  if (holding.length === 0) noteWhere(facts, lines.rest(step, effect), way.cell);
  const taken = holding[0]?.thing ?? choice.otherwise?.name;
  noteWhere(facts, taken === undefined ? lines.gap(step, effect) : lines.takes(step, effect, taken), way.cell);
  for (const earlier of holding) {
    for (const after of holding) {
      if (earlier.number < after.number && earlier.thing !== after.thing) {
        noteWhere(facts, lines.clash(step, effect, earlier.number, after.number), way.cell);
      }
    }
  }
  for (const one of choice.cases) {
    for (const condition of unread(walk, one.test, way)) {
      noteWhere(facts, lines.choiceUnread(step, effect, condition), way.cell);
    }
  }
}

/**
 * The body runs from where the hold starts; the step ends when both are over. Each way is followed on its own, so that its
 * hold is compared with what was done during that hold and no other.
 */
function doMeanwhile(walk: Walk, place: Place, body: Block, way: Way): readonly Within[] {
  const { number, takes, hold } = place;
  const started = later(way, takes);
  const inside = { ...intoStretch(started), holds: way.holds + 1 };
  return [...walk.body(body, together([inside])).values()].map((done) => {
    const time = stretch(done);
    noteSpan(walk.facts, lines.meanwhile(number), time);
    if (time.most > hold.most) noteWhere(walk.facts, lines.outlasted(number), done.cell);
    const longer = { least: Math.max(hold.least, time.least), most: Math.max(hold.most, time.most) };
    const { clocks } = later(started, longer);
    const owed = debts([...done.owed.values()].map((debt) => atLeastTheHold(debt, later(started, hold), hold)));
    return { way: { ...outOfStretch(done), clocks, owed, holds: way.holds }, over: true };
  });
}

/**
 * A debt at the end of the step around: one from before the hold has waited out the hold, one from during it counts at
 * least the whole hold. `held` is the way as it would be with nothing done meanwhile.
 */
function atLeastTheHold(debt: Debt, held: Way, hold: Times): Debt {
  const fromBefore = held.owed.get(debtName(debt))?.elapsed;
  const fromDuring = debt.depth > held.holds ? hold.most : undefined;
  return {
    ...debt,
    depth: Math.min(debt.depth, held.holds),
    elapsed: Math.max(debt.elapsed, fromDuring ?? fromBefore ?? 0),
  };
}
