import type { Procedure, Scenario, Span, StateValue, Test } from '@quarrel/model';
import type { Arith, Bool, Context, Model } from 'z3-solver';

export type Logic = Context<'main'>;
type Numbers = ReadonlyMap<string, Arith>;

/**
 * A procedure's vocabulary in z3: an observation or a state is the index of its value, a reading is a real number. Written
 * apart from the walk of `naive.ts`, so that the two do not err together.
 */
export class Vocabulary {
  /** What is true of the values that were made up here. */
  readonly facts: Bool[] = [];
  readonly #logic: Logic;
  readonly #procedure: Procedure;
  /** The values of every observation and state, in order. */
  readonly #lists: ReadonlyMap<string, readonly string[]>;
  #made = 0;

  constructor(procedure: Procedure, logic: Logic) {
    this.#procedure = procedure;
    this.#logic = logic;
    this.#lists = new Map(
      [...procedure.vocabulary.observations, ...procedure.vocabulary.states].map((one) => [
        one.name,
        one.values.map((value) => value.name),
      ]),
    );
  }

  free(): Bool {
    return this.#logic.Bool.const(this.#name('free'));
  }

  /** A value of the condition, whichever. */
  anyValue(condition: string): Arith {
    const list = this.#lists.get(condition);
    if (list !== undefined) {
      const value = this.#logic.Int.const(this.#name(condition));
      this.facts.push(this.#logic.And(value.ge(0), value.lt(list.length)));
      return value;
    }
    const reading = this.#procedure.vocabulary.readings.find((one) => one.name === condition);
    if (reading === undefined) throw new RangeError(`no condition is called ${condition}`);
    const value = this.#logic.Real.const(this.#name(condition));
    this.facts.push(this.#logic.And(value.ge(reading.low.si), value.le(reading.high.si)));
    return value;
  }

  start(): Numbers {
    const { observations, readings } = this.#procedure.vocabulary;
    return new Map([...observations, ...readings].map(({ name }) => [name, this.anyValue(name)]));
  }

  firstStates(): Numbers {
    return new Map(this.#procedure.vocabulary.states.map(({ name }) => [name, this.#logic.Int.val(0)]));
  }

  covered(now: Numbers): Bool {
    return this.#all(this.#procedure.covers.map((line) => this.formula(line, now, new Map())));
  }

  inSpan(reading: string, { least, most }: Span, now: Numbers): Bool {
    const value = this.#value(reading, now, now);
    return this.#all([
      ...(least === undefined ? [] : [value.ge(least.si)]),
      ...(most === undefined ? [] : [value.le(most.si)]),
    ]);
  }

  /** `states` with the value set wherever `where` is true. */
  set(states: Numbers, { state, value }: Pick<StateValue, 'state' | 'value'>, where: Bool): Numbers {
    const before = this.#value(state, states, states);
    return new Map(states).set(state, this.#logic.If(where, this.#index(state, value), before));
  }

  formula(test: Test, now: Numbers, states: Numbers): Bool {
    const { And, Or, Not, Bool } = this.#logic;
    switch (test.kind) {
      case 'is': {
        const value = this.#value(test.subject, now, states);
        const one = Or(...test.values.map((name) => value.eq(this.#index(test.subject, name))));
        return test.negated ? Not(one) : one;
      }
      case 'compare': {
        const value = this.#value(test.subject, now, states);
        const bound = test.quantity.si;
        const formulas = {
          below: value.lt(bound),
          'at-most': value.le(bound),
          equal: value.eq(bound),
          'at-least': value.ge(bound),
          above: value.gt(bound),
        };
        return formulas[test.comparison];
      }
      case 'between': {
        const value = this.#value(test.subject, now, states);
        return And(value.ge(test.low.si), value.le(test.high.si));
      }
      case 'not':
        return Not(this.formula(test.test, now, states));
      case 'and':
        return And(...test.tests.map((part) => this.formula(part, now, states)));
      case 'or':
        return Or(...test.tests.map((part) => this.formula(part, now, states)));
      case 'always':
        return Bool.val(true);
      case 'unknown':
        return this.free();
    }
  }

  /** The states once `test` (or, with `wanted` false, its opposite) has been made true as far as it can be. */
  mend(test: Test, wanted: boolean, now: Numbers, states: Numbers): Numbers {
    switch (test.kind) {
      case 'not':
        return this.mend(test.test, !wanted, now, states);
      case 'is':
        return this.#mendState(test, wanted, states);
      case 'and':
      case 'or': {
        const all = (test.kind === 'and') === wanted;
        return all
          ? test.tests.reduce((before, part) => this.mend(part, wanted, now, before), states)
          : this.#mendOne(test.tests, wanted, now, states);
      }
      default:
        return states;
    }
  }

  #mendState(test: Extract<Test, { kind: 'is' }>, wanted: boolean, states: Numbers): Numbers {
    const list = this.#lists.get(test.subject);
    if (list === undefined || !states.has(test.subject)) return states;
    const allowed = test.negated === wanted ? list.filter((name) => !test.values.includes(name)) : test.values;
    const first = allowed[0];
    if (first === undefined) return states;
    const holds = this.formula(test, new Map(), states);
    const fails = wanted ? this.#logic.Not(holds) : holds;
    return this.set(states, { state: test.subject, value: first }, fails);
  }

  /** Nothing where one of the parts is true, else the first that can be made so. */
  #mendOne(parts: readonly Test[], wanted: boolean, now: Numbers, states: Numbers): Numbers {
    const asWanted = (part: Test, after: Numbers): Bool => {
      const formula = this.formula(part, now, after);
      return wanted ? formula : this.#logic.Not(formula);
    };
    const mended = parts.reduceRight((rest, part) => {
      const after = this.mend(part, wanted, now, states);
      const can = asWanted(part, after);
      return new Map([...states.keys()].map((name) => [name, this.#pick(can, after, rest, name)]));
    }, states);
    const met = this.#logic.Or(...parts.map((part) => asWanted(part, states)));
    return new Map([...states.keys()].map((name) => [name, this.#pick(met, states, mended, name)]));
  }

  #pick(first: Bool, yes: Numbers, no: Numbers, name: string): Arith {
    return this.#logic.If(first, this.#value(name, yes, yes), this.#value(name, no, no));
  }

  /** The situation that a model gives for these values. */
  scenario(model: Model<'main'>, now: Numbers): Scenario {
    return Object.fromEntries(
      [...now].map(([name, value]) => {
        const found = model.eval(value, true);
        const list = this.#lists.get(name);
        if (list !== undefined && this.#logic.isIntVal(found)) return [name, list[Number(found.value())] ?? ''];
        if (this.#logic.isRealVal(found)) return [name, found.asNumber()];
        throw new TypeError(`z3 gives no value for ${name}`);
      }),
    );
  }

  /** That the values are those of a situation. */
  equals(now: Numbers, scenario: Scenario): Bool {
    return this.#all(
      [...now].map(([name, value]) => {
        const wanted = scenario[name];
        return value.eq(typeof wanted === 'number' ? wanted : this.#index(name, wanted ?? ''));
      }),
    );
  }

  #all(formulas: readonly Bool[]): Bool {
    return formulas.length === 0 ? this.#logic.Bool.val(true) : this.#logic.And(...formulas);
  }

  #value(name: string, now: Numbers, states: Numbers): Arith {
    const value = now.get(name) ?? states.get(name);
    if (value === undefined) throw new RangeError(`nothing is called ${name}`);
    return value;
  }

  #index(of: string, value: string): number {
    return (this.#lists.get(of) ?? []).indexOf(value);
  }

  #name(of: string): string {
    this.#made += 1;
    return `${of} ${this.#made}`;
  }
}
