import type { Act, Block, Choice, Effect, Flow, Need, Pattern, Procedure, Rule, Span, Step } from '@quarrel/model';
import type {
  ActDraft,
  CheckDraft,
  ChoiceDraft,
  Draft,
  EffectDraft,
  FlowDraft,
  RuleDraft,
  SpanDraft,
  StepDraft,
} from './draft.js';
import { at, declared, ends, most, Names, nowhere, seconds, setOf, testOf } from './names.js';

/** A procedure of names from a draft of numbers. What goes beyond the sizes above is left out. */
export function build(draft: Draft): Procedure {
  const names = new Names(draft);
  const left = { ...most };
  const vocabulary = {
    observations: names.observations,
    readings: names.readings,
    states: names.states,
    hazards: [0, 1].map((number) => ({
      ...declared('hazard', `hazard-${number}`),
      signal: 'warning' as const,
      measures: [],
    })),
    acts: draft.acts.map((act, number) => actOf(names, act, number)),
    rules: draft.rules.map((rule, number) => ruleOf(names, rule, number)),
    things: names.things,
    limits: [],
    assumptions: [],
  };
  return {
    ...declared('procedure', 'random'),
    uri: nowhere.uri,
    covers: draft.covers.map((test) => testOf(names, test, false)),
    within: [],
    cautions: cautionsOf(draft.cautions),
    waivers: [],
    choices: draft.choices.map((choice, number) => choiceOf(names, choice, number)),
    body: blockOf(names, left, draft.body),
    vocabulary,
  };
}

function actOf(names: Names, draft: ActDraft, number: number): Act {
  return {
    ...declared('act', `act-${number}`),
    needs: draft.needs.map((test): Need => ({ test: testOf(names, test, true), range: nowhere })),
    makes: draft.makes.map((set) => setOf(names, set)),
    raises: draft.raises.map((hazard) => `hazard-${hazard}`),
  };
}

function ruleOf(names: Names, draft: RuleDraft, number: number): Rule {
  return {
    ...declared('rule', `rule-${number}`),
    severity: draft.severity,
    pattern: patternOf(names, draft),
    ...(draft.when === undefined ? {} : { when: testOf(names, draft.when, false) }),
  };
}

function patternOf(names: Names, draft: RuleDraft): Pattern {
  const a = at(names.acts, draft.a);
  const b = at(names.acts, draft.b);
  const quantity = seconds(draft.seconds);
  switch (draft.pattern) {
    case 'precedence':
      return { kind: 'precedence', first: a, later: b };
    case 'response':
      return { kind: 'response', trigger: a, response: b, ...(draft.bounded ? { within: quantity } : {}) };
    case 'absence':
      return { kind: 'absence', act: a, after: b };
    case 'final':
      return { kind: 'final', test: testOf(names, draft.test, true) };
    case 'hold':
      return { kind: 'hold', act: a, bound: draft.bound, quantity };
  }
}

function choiceOf(names: Names, draft: ChoiceDraft, number: number): Choice {
  const { otherwise } = draft;
  return {
    ...declared('choice', `choice-${number}`),
    thingKind: 'resin',
    cases: draft.cases.map(({ test, thing }) => ({
      test: testOf(names, test, false),
      thing: at(names.things, thing).name,
      range: nowhere,
    })),
    ...(otherwise === undefined ? {} : { otherwise: { name: at(names.things, otherwise).name, range: nowhere } }),
  };
}

function cautionsOf(hazards: readonly number[]): Step['cautions'] {
  return hazards.map((hazard) => ({ kind: 'hazard', hazard: `hazard-${hazard}`, range: nowhere }));
}

function spanOf({ least, more }: SpanDraft): Span {
  if (least === undefined) return { most: seconds(more ?? 1), range: nowhere };
  if (more === undefined) return { least: seconds(least), range: nowhere };
  return { least: seconds(least), most: seconds(least + more), range: nowhere };
}

type Left = { steps: number; checks: number };

function blockOf(names: Names, left: Left, draft: readonly FlowDraft[]): Block {
  return draft.flatMap((flow) => flowOf(names, left, flow));
}

function flowOf(names: Names, left: Left, draft: FlowDraft): readonly Flow[] {
  switch (draft.kind) {
    case 'step':
      return stepOf(names, left, draft);
    case 'stage':
      return [{ kind: 'stage', label: 'stage', body: blockOf(names, left, draft.body), range: nowhere }];
    case 'stop':
      return [{ kind: 'stop', reason: 'stop', range: nowhere }];
    case 'when':
      return [
        {
          kind: 'when',
          cases: draft.cases.map(({ test, body }) => ({
            test: testOf(names, test, false),
            body: blockOf(names, left, body),
            range: nowhere,
          })),
          ...(draft.otherwise === undefined ? {} : { otherwise: blockOf(names, left, draft.otherwise) }),
          range: nowhere,
        },
      ];
    case 'repeat':
      return [
        {
          kind: 'repeat',
          ...(draft.atMost === undefined ? {} : { atMost: draft.atMost }),
          ...(draft.confirms === undefined ? {} : { confirms: setOf(names, draft.confirms) }),
          body: blockOf(names, left, draft.body),
          ...(draft.orElseStop ? { orElseStop: 'the goal was not seen' } : {}),
          range: nowhere,
        },
      ];
  }
}

function stepOf(names: Names, left: Left, draft: StepDraft): readonly Step[] {
  if (left.steps === 0) return [];
  left.steps -= 1;
  const id = `step-${most.steps - left.steps - 1}`;
  const effects = draft.effects.flatMap((effect) => effectOf(names, left, effect));
  const meanwhile: readonly Effect[] =
    draft.meanwhile === undefined
      ? []
      : [{ kind: 'meanwhile', body: blockOf(names, left, draft.meanwhile), range: nowhere }];
  const checks = draft.checks.flatMap((check) => checkOf(names, left, check));
  return [
    {
      kind: 'step',
      id,
      text: id,
      effects: [...effects, ...meanwhile, ...checks],
      ...(draft.takes === undefined ? {} : { takes: spanOf(draft.takes) }),
      ...(draft.hold === undefined ? {} : { hold: spanOf(draft.hold) }),
      cautions: cautionsOf(draft.cautions),
      notes: [],
      photos: [],
      waivers: [],
      range: nowhere,
    },
  ];
}

function effectOf(names: Names, left: Left, draft: EffectDraft): readonly Effect[] {
  switch (draft.kind) {
    case 'act':
      return [{ kind: 'act', act: at(names.acts, draft.act), range: nowhere }];
    case 'with': {
      const isChoice = draft.isChoice && names.choices.length > 0;
      const thing = isChoice ? at(names.choices, draft.thing) : at(names.things, draft.thing).name;
      return [{ kind: 'with', thing, isChoice, range: nowhere }];
    }
    case 'check':
      return checkOf(names, left, draft);
    case 'look': {
      const condition = at([...names.observations, ...names.readings], draft.condition);
      if (condition.kind === 'observation') return [{ kind: 'observe', condition: condition.name, range: nowhere }];
      const { accept, orElseStop } = draft;
      if (accept === undefined) return [{ kind: 'read', condition: condition.name, range: nowhere }];
      const [low, high] = ends(condition, accept.low ?? 1, accept.high ?? 2);
      const span = {
        ...(accept.low === undefined ? {} : { least: low }),
        ...(accept.high === undefined ? {} : { most: high }),
        range: nowhere,
      };
      const stop = orElseStop ? { orElseStop: 'out of range' } : {};
      return [{ kind: 'read', condition: condition.name, accept: { span, ...stop }, range: nowhere }];
    }
  }
}

function checkOf(names: Names, left: Left, draft: CheckDraft): readonly Effect[] {
  if (left.checks === 0) return [];
  left.checks -= 1;
  return [
    {
      kind: 'check',
      text: 'seen',
      ...(draft.confirms === undefined ? {} : { confirms: setOf(names, draft.confirms) }),
      ...(draft.orElseStop ? { orElseStop: 'not seen' } : {}),
      range: nowhere,
    },
  ];
}
