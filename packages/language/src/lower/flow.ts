import type { Block, Flow } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import { lowerStateValue } from './acts.js';
import { optional, type Reader } from './reader.js';
import { lowerStep } from './steps.js';
import { lowerTest } from './tests.js';

/** The id of every step of one procedure. */
export interface StepIds {
  of(step: ast.Step): string;
}

export function lowerBlock(node: ast.Block | undefined, ids: StepIds, reader: Reader): Block {
  return node === undefined ? [] : node.parts.map((part) => lowerFlow(part, ids, reader));
}

export function lowerFlow(node: ast.Flow, ids: StepIds, reader: Reader): Flow {
  const { places } = reader;
  switch (node.$type) {
    case 'Step':
      return lowerStep(node, ids, reader);
    case 'Stage': {
      const body = lowerBlock(node.body, ids, reader);
      return { kind: 'stage', label: node.label ?? '', body, range: places.ofProperty(node, 'label') };
    }
    case 'When':
      return {
        kind: 'when',
        cases: node.cases.map((one) => {
          const range = one.test === undefined ? places.ofNode(one) : places.ofNode(one.test);
          return { test: lowerTest(one.test, range, reader), body: lowerBlock(one.body, ids, reader), range };
        }),
        ...optional('otherwise', node.otherwise === undefined ? undefined : lowerBlock(node.otherwise, ids, reader)),
        range: places.ofFirstWord(node),
      };
    case 'Repeat':
      return {
        kind: 'repeat',
        ...optional('atMost', passesOf(node, reader)),
        ...optional('until', node.until),
        ...optional('confirms', lowerStateValue(node.confirms, reader)),
        body: lowerBlock(node.body, ids, reader),
        ...optional('orElseStop', node.orElse?.reason),
        range: places.ofFirstWord(node),
      };
    case 'Stop':
      return { kind: 'stop', reason: node.reason ?? '', range: places.ofNode(node) };
  }
}

function passesOf(node: ast.Repeat, reader: Reader): number | undefined {
  if (node.times === undefined) return undefined;
  const times = Number(node.times.replace('−', '-'));
  if (Number.isInteger(times) && times >= 1) return times;
  reader.complain(
    'How often is a whole number, 1 or more: `at most 3 times`.',
    reader.places.ofProperty(node, 'times'),
  );
  return undefined;
}
