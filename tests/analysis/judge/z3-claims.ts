import type { Block, Choice, Effect, Flow, Procedure, Step, Test, When } from '@quarrel/model';
import { stepsOf } from '@quarrel/model';
import type { Arith, Bool } from 'z3-solver';
import { lines } from './facts.js';
import { type Logic, Vocabulary } from './z3-tests.js';

/** Something that a run may say of some situations, as a formula that is true where some run shows it. */
export interface Claim {
  /** The name of the record, as in `facts.ts`. */
  readonly line: string;
  readonly formula: Bool;
  /** The value of each condition at that moment. */
  readonly now: ReadonlyMap<string, Arith>;
}

/** A procedure without repeats as formulas over the situation it starts in and every free turn it takes. */
export interface Encoding {
  /** What is true of every run. */
  readonly facts: readonly Bool[];
  readonly claims: readonly Claim[];
  readonly words: Vocabulary;
}

/** All runs at one moment of the text: whether a run comes here, and what is then the case. */
interface Here {
  readonly alive: Bool;
  readonly now: ReadonlyMap<string, Arith>;
  readonly known: ReadonlyMap<string, Bool>;
  readonly states: ReadonlyMap<string, Arith>;
}

export function encode(procedure: Procedure, logic: Logic): Encoding {
  const words = new Vocabulary(procedure, logic);
  const claims: Claim[] = [];
  const numbers = new Map(stepsOf(procedure).map((step, number) => [step, number]));
  const claim = (line: string, { now }: Here, formula: Bool): void => {
    claims.push({ line, formula, now });
  };

  function bodyOf(block: Block, from: Here): Here {
    return block.reduce((here, flow) => flowOf(flow, here), from);
  }

  function flowOf(flow: Flow, here: Here): Here {
    switch (flow.kind) {
      case 'step':
        return stepOf(flow, here);
      case 'stage':
        return bodyOf(flow.body, here);
      case 'when':
        return whenOf(flow, here);
      case 'stop':
        return { ...here, alive: logic.Bool.val(false) };
      case 'repeat':
        throw new RangeError('a repeat has no formula here');
    }
  }

  function whenOf(when: When, here: Here): Here {
    let rest = logic.Bool.val(true);
    const branches: { readonly taken: Bool; readonly behind: Here }[] = [];
    for (const one of when.cases) {
      const holds = words.formula(one.test, here.now, here.states);
      const taken = logic.And(rest, holds);
      branches.push({ taken, behind: bodyOf(one.body, { ...here, alive: logic.And(here.alive, taken) }) });
      rest = logic.And(rest, logic.Not(holds));
    }
    const otherwise = bodyOf(when.otherwise ?? [], { ...here, alive: logic.And(here.alive, rest) });
    return branches.reduceRight((behind, branch) => either(branch.taken, branch.behind, behind), otherwise);
  }

  function either(taken: Bool, yes: Here, no: Here): Here {
    const pick = (a: ReadonlyMap<string, Arith>, b: ReadonlyMap<string, Arith>): ReadonlyMap<string, Arith> =>
      new Map([...a].map(([name, value]) => [name, logic.If(taken, value, b.get(name) ?? value)]));
    return {
      alive: logic.If(taken, yes.alive, no.alive),
      now: pick(yes.now, no.now),
      known: new Map(
        [...yes.known].map(([name, known]) => [name, logic.If(taken, known, no.known.get(name) ?? known)]),
      ),
      states: pick(yes.states, no.states),
    };
  }

  function stepOf(step: Step, from: Here): Here {
    const number = numbers.get(step) ?? -1;
    claim(lines.reached(lines.before(number)), from, from.alive);
    return step.effects.reduce((here, effect, index) => effectOf(effect, number, index, here), from);
  }

  function effectOf(effect: Effect, step: number, index: number, here: Here): Here {
    const stops = lines.stopped(`step ${step}, effect ${index}`);
    switch (effect.kind) {
      case 'observe':
        return look(effect.condition, here);
      case 'read': {
        const after = look(effect.condition, here);
        if (effect.accept?.orElseStop === undefined) return after;
        const accepted = words.inSpan(effect.condition, effect.accept.span, after.now);
        claim(stops, after, logic.And(after.alive, logic.Not(accepted)));
        return { ...after, alive: logic.And(after.alive, accepted) };
      }
      case 'act':
        return actOf(effect.act, step, index, here);
      case 'with': {
        const choice = effect.isChoice ? procedure.choices.find((one) => one.name === effect.thing) : undefined;
        if (choice !== undefined) choose(choice, step, index, here);
        return here;
      }
      case 'check': {
        const seen = words.free();
        const { confirms } = effect;
        const states = confirms === undefined ? here.states : words.set(here.states, confirms, seen);
        if (effect.orElseStop === undefined) return { ...here, states };
        claim(stops, here, logic.And(here.alive, logic.Not(seen)));
        return { ...here, states, alive: logic.And(here.alive, seen) };
      }
      case 'meanwhile':
        return bodyOf(effect.body, here);
    }
  }

  /** Known already, the condition gets any value with which the situation is covered still. */
  function look(condition: string, here: Here): Here {
    const known = here.known.get(condition) ?? logic.Bool.val(false);
    const before = here.now.get(condition);
    if (before === undefined) return here;
    const seen = words.anyValue(condition);
    const now = new Map(here.now).set(condition, logic.If(known, seen, before));
    words.facts.push(logic.Implies(here.alive, words.covered(now)));
    return { ...here, now, known: new Map(here.known).set(condition, logic.Bool.val(true)) };
  }

  function actOf(name: string, step: number, effect: number, here: Here): Here {
    const act = procedure.vocabulary.acts.find((one) => one.name === name);
    if (act === undefined) return here;
    let { states } = here;
    act.needs.forEach((need, number) => {
      const unmet = logic.Not(words.formula(need.test, here.now, states));
      claim(lines.unmet(step, effect, number), here, logic.And(here.alive, unmet));
      states = words.mend(need.test, true, here.now, states);
    });
    for (const made of act.makes) states = words.set(states, made, logic.Bool.val(true));
    return { ...here, states };
  }

  function choose(choice: Choice, step: number, effect: number, here: Here): void {
    const asked = (test: Test): Bool => words.formula(test, here.now, here.states);
    if (choice.otherwise === undefined) {
      const none = choice.cases.map((one) => logic.Not(asked(one.test)));
      claim(lines.gap(step, effect), here, logic.And(here.alive, ...none));
    }
    choice.cases.forEach((first, earlier) => {
      choice.cases.forEach((second, later) => {
        if (earlier >= later || first.thing === second.thing) return;
        const line = lines.clash(step, effect, earlier, later);
        claim(line, here, logic.And(here.alive, asked(first.test), asked(second.test)));
      });
    });
  }

  const start = words.start();
  words.facts.push(words.covered(start));
  bodyOf(procedure.body, {
    alive: logic.Bool.val(true),
    now: start,
    known: new Map([...start.keys()].map((name) => [name, logic.Bool.val(false)])),
    states: words.firstStates(),
  });
  return { facts: words.facts, claims, words };
}
