import type { Block, Comparison, Effect, Flow, Pattern, Procedure, Span, Step, Test } from '@quarrel/model';

/** A procedure of the model as a sheet; what cannot be read stays so, as a name that nothing has. */
export function written(procedure: Procedure): string {
  const { observations, readings, states, hazards, acts, rules, things } = procedure.vocabulary;
  const named = (values: readonly { readonly name: string }[]): string => values.map(({ name }) => name).join(', ');
  return [
    ...observations.map(({ name, values }) => `observation ${name}: ${named(values)}`),
    ...readings.map(({ name, low, high }) => `reading ${name}: ${low.text} to ${high.text}`),
    ...states.map(({ name, values }) => `state ${name}: ${named(values)}`),
    ...hazards.map(({ name, signal }) => `hazard ${name} ${signal}`),
    ...acts.map(({ name, needs, makes, raises }) => {
      const parts = [
        ...needs.map((need) => `needs ${words(need.test)}`),
        ...makes.map(({ state, value }) => `makes ${state} ${value}`),
        ...raises.map((hazard) => `raises ${hazard}`),
      ];
      return `act ${name} { ${parts.join('; ')} }`;
    }),
    ...rules.map(({ name, pattern, when }) => {
      const asked = `${patternWords(pattern)}${when === undefined ? '' : ` when ${words(when)}`}`;
      return `rule ${name} { ${asked} }`;
    }),
    ...things.map(({ kind, name }) => `${kind} ${name}`),
    `procedure ${procedure.name} {`,
    ...(procedure.covers.length === 0 ? [] : [`covers { ${procedure.covers.map(words).join('; ')} }`]),
    ...cautions(procedure),
    ...procedure.choices.map(({ name, cases, otherwise }) => {
      const parts = cases.map(({ test, thing }) => `when ${words(test)}: ${thing}`);
      const rest = otherwise === undefined ? [] : [`otherwise: ${otherwise.name}`];
      return `choose resin ${name} {\n${[...parts, ...rest].join('\n')}\n}`;
    }),
    ...procedure.body.map(flow),
    '}',
  ].join('\n');
}

const comparisons: Readonly<Record<Comparison, string>> = {
  below: 'below',
  'at-most': 'at most',
  equal: 'is',
  'at-least': 'at least',
  above: 'above',
};

function words(test: Test): string {
  switch (test.kind) {
    case 'is':
      return `${test.subject} is ${test.negated ? 'not ' : ''}${test.values.join(', ')}`;
    case 'compare':
      return `${test.subject} ${comparisons[test.comparison]} ${test.quantity.text}`;
    case 'between':
      return `${test.subject} from ${test.low.text} to ${test.high.text}`;
    case 'not':
      return `not ${bracketed(test.test)}`;
    case 'and':
    case 'or':
      return test.tests.map(bracketed).join(` ${test.kind} `);
    case 'always':
      return 'always';
    case 'unknown':
      return 'nobody-knows is what';
  }
}

function bracketed(test: Test): string {
  return `(${words(test)})`;
}

function patternWords(pattern: Pattern): string {
  switch (pattern.kind) {
    case 'precedence':
      return `${pattern.first} comes before ${pattern.later}`;
    case 'response': {
      const within = pattern.within === undefined ? '' : ` within ${pattern.within.text}`;
      return `after ${pattern.trigger}, ${pattern.response} follows${within}`;
    }
    case 'absence':
      return `no ${pattern.act} after ${pattern.after}`;
    case 'final':
      return `at the end ${words(pattern.test)}`;
    case 'hold':
      return `hold of ${pattern.act} ${comparisons[pattern.bound]} ${pattern.quantity.text}`;
  }
}

function block(parts: Block): string {
  return `{\n${parts.map(flow).join('\n')}\n}`;
}

function flow(part: Flow): string {
  switch (part.kind) {
    case 'stop':
      return `stop "${part.reason}"`;
    case 'stage':
      return `stage "${part.label}" ${block(part.body)}`;
    case 'when': {
      const cases = part.cases.map(({ test, body }) => `when ${words(test)} ${block(body)}`).join(' otherwise ');
      return part.otherwise === undefined ? cases : `${cases} otherwise ${block(part.otherwise)}`;
    }
    case 'repeat': {
      const bound = part.atMost === undefined ? '' : ` at most ${part.atMost} times`;
      const goal = part.confirms === undefined ? '' : ` until "seen"${confirming(part)}`;
      return `repeat${bound}${goal} ${block(part.body)}${orElse(part)}`;
    }
    case 'step':
      return `step ${part.id} "${part.text}" {\n${stepClauses(part).join('\n')}\n}`;
  }
}

function stepClauses(step: Step): readonly string[] {
  return [
    ...cautions(step),
    ...step.effects.map(effect),
    ...(step.takes === undefined ? [] : [`takes ${bounds(step.takes)}`]),
    ...(step.hold === undefined ? [] : [`hold ${bounds(step.hold)}`]),
  ];
}

function cautions({ cautions: list }: Pick<Step, 'cautions'>): readonly string[] {
  return list.flatMap((one) => (one.kind === 'hazard' ? [`caution ${one.hazard}`] : []));
}

function effect(one: Effect): string {
  switch (one.kind) {
    case 'act':
      return `do ${one.act}`;
    case 'observe':
      return `observe ${one.condition}`;
    case 'read': {
      const { accept } = one;
      const isBound = accept?.span.least !== undefined || accept?.span.most !== undefined;
      return `read ${one.condition}${isBound ? ` accept ${bounds(accept.span)}${orElse(accept)}` : ''}`;
    }
    case 'with':
      return `with ${one.thing}`;
    case 'check':
      return `check "${one.text}"${confirming(one)}${orElse(one)}`;
    case 'meanwhile':
      return `meanwhile ${block(one.body)}`;
  }
}

function confirming({ confirms }: { readonly confirms?: { readonly state: string; readonly value: string } }): string {
  return confirms === undefined ? '' : ` confirms ${confirms.state} ${confirms.value}`;
}

function orElse({ orElseStop }: { readonly orElseStop?: string }): string {
  return orElseStop === undefined ? '' : ` or else stop "${orElseStop}"`;
}

function bounds({ least, most }: Span): string {
  if (least === undefined) return `at most ${most?.text}`;
  return most === undefined ? `at least ${least.text}` : `${least.text} to ${most.text}`;
}
