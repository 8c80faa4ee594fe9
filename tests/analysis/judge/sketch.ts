import type { Block, Effect, Flow, Pattern, Procedure, Span, Step, Test } from '@quarrel/model';

/** A procedure as a person would jot it down, for reading a difference; close to the language, not the language. */
export function sketch(procedure: Procedure): string {
  const { observations, readings, states, acts, rules } = procedure.vocabulary;
  return [
    ...observations.map(({ name, values }) => `observation ${name}: ${values.map((value) => value.name).join(', ')}`),
    ...readings.map(({ name, low, high }) => `reading ${name}: ${low.text} to ${high.text}`),
    ...states.map(({ name, values }) => `state ${name}: ${values.map((value) => value.name).join(', ')}`),
    ...acts.map(({ name, needs, makes, raises }) => {
      const parts = [
        ...needs.map((need) => `needs ${words(need.test)}`),
        ...makes.map(({ state, value }) => `makes ${state} ${value}`),
        ...raises.map((hazard) => `raises ${hazard}`),
      ];
      return `act ${name} { ${parts.join('; ')} }`;
    }),
    ...rules.map(
      ({ name, pattern, when }) =>
        `rule ${name} { ${patternWords(pattern)}${when === undefined ? '' : ` when ${words(when)}`} }`,
    ),
    ...procedure.choices.map(({ name, cases, otherwise }) => {
      const parts = cases.map(({ test, thing }) => `when ${words(test)}: ${thing}`);
      return `choose ${name} { ${[...parts, ...(otherwise === undefined ? [] : [`otherwise: ${otherwise.name}`])].join('; ')} }`;
    }),
    ...procedure.covers.map((test) => `covers ${words(test)}`),
    `cautions ${hazards(procedure)}`,
    ...blockLines(procedure.body, ''),
  ].join('\n');
}

function hazards({ cautions }: Pick<Step, 'cautions'>): string {
  return cautions.map((caution) => (caution.kind === 'hazard' ? caution.hazard : `"${caution.text}"`)).join(', ');
}

function words(test: Test): string {
  switch (test.kind) {
    case 'is':
      return `${test.subject} is ${test.negated ? 'not ' : ''}${test.values.join(', ')}`;
    case 'compare':
      return `${test.subject} ${test.comparison} ${test.quantity.text}`;
    case 'between':
      return `${test.subject} from ${test.low.text} to ${test.high.text}`;
    case 'not':
      return `not (${words(test.test)})`;
    case 'and':
    case 'or':
      return `(${test.tests.map(words).join(` ${test.kind} `)})`;
    case 'always':
      return 'always';
    case 'unknown':
      return '???';
  }
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
      return `hold of ${pattern.act} ${pattern.bound} ${pattern.quantity.text}`;
  }
}

function blockLines(block: Block, indent: string): readonly string[] {
  return block.flatMap((flow) => flowLines(flow, indent));
}

function flowLines(flow: Flow, indent: string): readonly string[] {
  const inner = `${indent}  `;
  switch (flow.kind) {
    case 'stop':
      return [`${indent}stop`];
    case 'stage':
      return [`${indent}stage {`, ...blockLines(flow.body, inner), `${indent}}`];
    case 'when':
      return [
        ...flow.cases.flatMap(({ test, body }, number) => [
          `${indent}${number === 0 ? '' : '} otherwise '}when ${words(test)} {`,
          ...blockLines(body, inner),
        ]),
        ...(flow.otherwise === undefined ? [] : [`${indent}} otherwise {`, ...blockLines(flow.otherwise, inner)]),
        `${indent}}`,
      ];
    case 'repeat': {
      const bound = flow.atMost === undefined ? '' : ` at most ${flow.atMost} times`;
      const confirms = flow.confirms === undefined ? '' : ` confirms ${flow.confirms.state} ${flow.confirms.value}`;
      const end = flow.orElseStop === undefined ? '' : ' or else stop';
      return [`${indent}repeat${bound}${confirms} {`, ...blockLines(flow.body, inner), `${indent}}${end}`];
    }
    case 'step': {
      const head = `${indent}step ${flow.id} {`;
      const spans = `${spanWords('takes', flow.takes)}${spanWords('hold', flow.hold)}`;
      const cautions = flow.cautions.length === 0 ? '' : `caution ${hazards(flow)}; `;
      if (flow.effects.length === 0) return [`${head} ${cautions}${spans}}`];
      return [
        `${head} ${cautions}${spans}`,
        ...flow.effects.flatMap((effect) => effectLines(effect, inner)),
        `${indent}}`,
      ];
    }
  }
}

function spanWords(what: string, span: Span | undefined): string {
  return span === undefined ? '' : `${what} ${bounds(span)}; `;
}

function bounds({ least, most }: Span): string {
  return `${least?.text ?? '…'} to ${most?.text ?? '…'}`;
}

function effectLines(effect: Effect, indent: string): readonly string[] {
  switch (effect.kind) {
    case 'act':
      return [`${indent}do ${effect.act}`];
    case 'observe':
      return [`${indent}observe ${effect.condition}`];
    case 'read': {
      const { accept } = effect;
      const stop = accept?.orElseStop === undefined ? '' : ' or else stop';
      return [
        `${indent}read ${effect.condition}${accept === undefined ? '' : ` accept ${bounds(accept.span)}${stop}`}`,
      ];
    }
    case 'with':
      return [`${indent}with ${effect.thing}`];
    case 'check': {
      const confirms =
        effect.confirms === undefined ? '' : ` confirms ${effect.confirms.state} ${effect.confirms.value}`;
      return [`${indent}check${confirms}${effect.orElseStop === undefined ? '' : ' or else stop'}`];
    }
    case 'meanwhile':
      return [`${indent}meanwhile {`, ...blockLines(effect.body, `${indent}  `), `${indent}}`];
  }
}
