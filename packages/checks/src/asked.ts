import type { Questions, ResponseQuestion } from '@quarrel/analysis';
import { flowIn, type Procedure, type Rule, stepsOf, type Test } from '@quarrel/model';
import { processRules } from './catalogue.js';
import { openingsOf } from './process/openings.js';

/** What the rules in force want to know of a run, and which answer belongs to which rule. */
export interface Asked {
  readonly questions: Questions;
  /** By the rule's name: the number of its response in the questions. */
  readonly responses: ReadonlyMap<string, number>;
  /** By the rule's name: the number of its test at the end. */
  readonly finals: ReadonlyMap<string, number>;
  /** The number of the first response that asks how long resin stands open; the others follow it. */
  readonly openings: number;
}

/** The questions of every rule of the procedure's vocabulary that the acts of its steps can break. */
export function askedOf(procedure: Procedure): Asked {
  const done = actsOf(procedure);
  const acts = new Set<string>();
  const responses: ResponseQuestion[] = [];
  const finals: Test[] = [];
  const responseOf = new Map<string, number>();
  const finalOf = new Map<string, number>();
  for (const rule of procedure.vocabulary.rules) {
    const { pattern } = rule;
    switch (pattern.kind) {
      case 'precedence':
        if (done.has(pattern.later)) acts.add(pattern.first);
        break;
      case 'absence':
        if (done.has(pattern.act)) acts.add(pattern.after);
        break;
      case 'response':
        if (!done.has(pattern.trigger)) break;
        responseOf.set(rule.name, responses.length);
        responses.push(responseQuestion(rule, pattern));
        break;
      case 'final':
        finalOf.set(rule.name, finals.length);
        finals.push(pattern.test);
        break;
      case 'hold':
        break;
    }
  }
  const openings = responses.length;
  const unrun = { procedure, steps: stepsOf(procedure) };
  responses.push(...openingsOf(unrun).map(({ asked }) => asked));
  const tests = processRules.flatMap((rule) => [...rule.turns(unrun)]);
  return {
    questions: { acts: [...acts], responses, finals, tests },
    responses: responseOf,
    finals: finalOf,
    openings,
  };
}

function responseQuestion(rule: Rule, pattern: Extract<Rule['pattern'], { kind: 'response' }>): ResponseQuestion {
  return {
    trigger: pattern.trigger,
    response: pattern.response,
    ...(pattern.within === undefined ? {} : { within: pattern.within.si }),
    ...(rule.when === undefined ? {} : { when: rule.when }),
  };
}

/** The names of all acts that some step does. */
function actsOf(procedure: Procedure): ReadonlySet<string> {
  const names = new Set<string>();
  for (const part of flowIn(procedure.body)) {
    if (part.kind !== 'step') continue;
    for (const effect of part.effects) if (effect.kind === 'act') names.add(effect.act);
  }
  return names;
}
