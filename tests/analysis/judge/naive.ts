import type { Flow, Procedure, Repeat, Rule, Stop, When } from '@quarrel/model';
import { stepsOf } from '@quarrel/model';
import type { Cells } from './cells.js';
import { type Facts, lines, noFacts, noteClock, noteSpan, noteWhere } from './facts.js';
import { walkStep } from './naive-step.js';
import { inOrder } from './numbers.js';
import {
  asks,
  intoStretch,
  isAsked,
  namesOf,
  noteMoment,
  now,
  outOfStretch,
  stretch,
  TooLong,
  unread,
  type Walk,
} from './walk.js';
import { debtName, joined, together, type Way, type Ways } from './ways.js';

/**
 * What docs/meaning.md says of `procedure`, found by walking every situation one by one. It is slow, and it is the reference in
 * the form of a program: where it and the engine differ, one of them is wrong. After `longest` parts of the procedure,
 * counted for every way and what it owes, it gives up and says nothing.
 */
export function judge(procedure: Procedure, cells: Cells, longest = 1_000_000): Facts | undefined {
  try {
    return walkAll(procedure, cells, longest);
  } catch (error) {
    if (error instanceof TooLong) return undefined;
    throw error;
  }
}

function walkAll(procedure: Procedure, cells: Cells, longest: number): Facts {
  const facts = noFacts();
  let walked = 0;
  const order = inOrder(procedure);
  const walk: Walk = {
    procedure,
    cells,
    facts,
    stepNumbers: new Map(stepsOf(procedure).map((step, number) => [step, number])),
    ...askedBy(procedure.vocabulary.rules),
    moments: namesOf(procedure),
    body: (block, ways) =>
      block.reduce((now, flow) => {
        for (const way of now.values()) walked += 1 + way.owed.size;
        if (walked > longest) throw new TooLong();
        return walkFlow(flow, now);
      }, ways),
    stop: (by, way) => {
      noteWhere(facts, lines.stopped(by), way.cell);
      noteClock(facts, lines.stopClock(by), way.cell, now(way));
    },
  };

  function walkFlow(flow: Flow, ways: Ways): Ways {
    switch (flow.kind) {
      case 'step':
        return walkStep(walk, flow, ways);
      case 'stage':
        return walk.body(flow.body, ways);
      case 'when':
        return walkWhen(flow, ways);
      case 'repeat':
        return walkRepeat(flow, ways);
      case 'stop':
        return walkStop(flow, ways);
    }
  }

  function walkStop(stop: Stop, ways: Ways): Ways {
    for (const way of ways.values()) walk.stop(`stop ${order.stops.get(stop)}`, way);
    return new Map();
  }

  function walkWhen(when: When, ways: Ways): Ways {
    const behind: Way[] = [];
    let asking = ways;
    for (const one of when.cases) {
      const number = order.cases.get(one) ?? -1;
      const inside: Way[] = [];
      const past: Way[] = [];
      for (const way of asking.values()) {
        noteWhere(facts, lines.asked(number), way.cell);
        for (const condition of unread(walk, one.test, way))
          noteWhere(facts, lines.unread(number, condition), way.cell);
        for (const outcome of asks(walk, one.test, way)) {
          if (outcome) noteWhere(facts, lines.holds(number), way.cell);
          (outcome ? inside : past).push(way);
        }
      }
      behind.push(...walk.body(one.body, together(inside)).values());
      asking = together(past);
    }
    for (const way of asking.values()) noteWhere(facts, lines.fallthrough(order.whens.get(when) ?? -1), way.cell);
    behind.push(...walk.body(when.otherwise ?? [], asking).values());
    return together(behind);
  }

  function walkRepeat(repeat: Repeat, ways: Ways): Ways {
    const number = order.repeats.get(repeat) ?? -1;
    for (const way of ways.values()) noteWhere(facts, lines.entered(number), way.cell);
    const starting = together([...ways.values()].map(intoStretch));
    const behind =
      repeat.atMost === undefined
        ? [...starting].flatMap(([name, way]) => withoutBound(repeat, new Map([[name, way]])))
        : upTo(repeat, repeat.atMost, starting);
    for (const way of behind) {
      noteWhere(facts, lines.passed(number), way.cell);
      noteSpan(facts, lines.repeatTime(number), stretch(way));
    }
    return together(behind.map(outOfStretch));
  }

  function seen(repeat: Repeat, way: Way): Way {
    const { confirms } = repeat;
    return confirms === undefined ? way : { ...way, states: { ...way.states, [confirms.state]: confirms.value } };
  }

  function upTo(repeat: Repeat, atMost: number, starting: Ways): Way[] {
    const behind: Way[] = [];
    let passing = starting;
    for (let pass = 1; pass <= atMost; pass += 1) {
      passing = walk.body(repeat.body, passing);
      behind.push(...[...passing.values()].map((way) => seen(repeat, way)));
    }
    for (const way of passing.values()) {
      if (repeat.orElseStop === undefined) behind.push(way);
      else walk.stop(`repeat ${order.repeats.get(repeat)}`, outOfStretch(way));
    }
    return behind;
  }

  /**
   * Passes until no pass brings anything new. A time that still grows after more passes than there are ways and debts has
   * gone round in a circle that takes time, and so has no upper end.
   */
  function withoutBound(repeat: Repeat, starting: Ways): Way[] {
    const begun = new Map(starting);
    let behind: Ways = new Map();
    let fresh = starting;
    let quietPasses = 0;
    while (fresh.size > 0) {
      const passed = walk.body(repeat.body, fresh);
      behind = together([...behind.values(), ...[...passed.values()].map((way) => seen(repeat, way))]);
      const things = [...begun.values()].reduce((sum, way) => sum + 1 + way.owed.size, 0);
      const tooLong = quietPasses > things;
      let grown = false;
      const next = new Map<string, Way>();
      for (const [name, way] of passed) {
        const before = begun.get(name);
        const after = before === undefined ? way : grow(before, way, tooLong);
        if (before !== undefined && sameTimes(before, after)) continue;
        grown ||= before === undefined || before.owed.size < after.owed.size;
        begun.set(name, after);
        next.set(name, after);
      }
      quietPasses = grown ? 0 : quietPasses + 1;
      fresh = next;
    }
    return [...behind.values()];
  }

  const first = Object.fromEntries(
    procedure.vocabulary.states.map((state) => [state.name, state.values[0]?.name ?? '']),
  );
  const always = procedure.cautions.flatMap((caution) => (caution.kind === 'hazard' ? [caution.hazard] : []));
  const starts: Way[] = [];
  cells.covered.forEach((covered, cell) => {
    if (!covered) return;
    noteWhere(facts, lines.covered, cell);
    starts.push({
      cell,
      known: new Set(),
      states: first,
      done: new Set(),
      announced: new Set(always),
      clocks: [{ least: 0, most: 0 }],
      holds: 0,
      owed: new Map(),
    });
  });
  for (const way of walk.body(procedure.body, together(starts)).values()) walkEnd(walk, way);
  return facts;
}

function walkEnd(walk: Walk, way: Way): void {
  noteMoment(walk, lines.end, way);
  for (const debt of way.owed.values()) {
    noteWhere(walk.facts, lines.unanswered(debt.step, debt.effect, debt.response), debt.cell);
  }
  let final = 0;
  walk.procedure.vocabulary.rules.forEach((rule, number) => {
    if (rule.pattern.kind !== 'final') return;
    if (asks(walk, rule.pattern.test, way).includes(false)) {
      noteWhere(walk.facts, lines.finalUnmet(final), way.cell);
      if (isAsked(walk, rule.when, way)) noteWhere(walk.facts, lines.breachAtEnd(number), way.cell);
    }
    final += 1;
  });
}

function askedBy(rules: readonly Rule[]): Pick<Walk, 'responses' | 'actsAskedAbout'> {
  const acts = new Set<string>();
  for (const { pattern } of rules) {
    if (pattern.kind === 'precedence') acts.add(pattern.first);
    if (pattern.kind === 'absence') acts.add(pattern.after);
  }
  const responses = rules.flatMap((rule) =>
    rule.pattern.kind === 'response' ? [{ rule, trigger: rule.pattern.trigger, response: rule.pattern.response }] : [],
  );
  return { responses, actsAskedAbout: [...acts] };
}

function grow(before: Way, way: Way, tooLong: boolean): Way {
  const after = joined(before, way);
  if (!tooLong) return after;
  return {
    ...after,
    clocks: after.clocks.map((times, index) =>
      times.most > (before.clocks[index]?.most ?? 0) ? { ...times, most: Number.POSITIVE_INFINITY } : times,
    ),
    owed: new Map(
      [...after.owed].map(([name, debt]) => {
        const grew = debt.elapsed > (before.owed.get(debtName(debt))?.elapsed ?? debt.elapsed);
        return [name, grew ? { ...debt, elapsed: Number.POSITIVE_INFINITY } : debt];
      }),
    ),
  };
}

function sameTimes(a: Way, b: Way): boolean {
  return (
    a.clocks.every((times, index) => times.least === b.clocks[index]?.least && times.most === b.clocks[index]?.most) &&
    a.owed.size === b.owed.size &&
    [...a.owed].every(([name, debt]) => debt.elapsed === b.owed.get(name)?.elapsed)
  );
}
