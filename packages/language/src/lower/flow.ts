import type { Block, Flow, InText, When, WhenCase } from '@quarrel/model';
import * as ast from '../generated/ast.js';
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
      return {
        kind: 'stage',
        label: node.label ?? '',
        body,
        range: places.ofProperty(node, 'label'),
        ...inText(node, reader),
      };
    }
    case 'When':
      return lowerWhen(node, ids, reader);
    case 'Repeat':
      return {
        kind: 'repeat',
        ...optional('atMost', passesOf(node, reader)),
        ...optional('until', node.until),
        ...optional('confirms', lowerStateValue(node.confirms, reader)),
        body: lowerBlock(node.body, ids, reader),
        ...optional('orElseStop', node.orElse?.reason),
        range: places.ofFirstWord(node),
        ...optional('head', places.upTo(node, node.body)),
        ...inText(node, reader),
      };
    case 'Stop':
      return { kind: 'stop', reason: node.reason ?? '', range: places.ofNode(node), ...inText(node, reader) };
  }
}

function inText(node: ast.Flow, { places }: Reader): InText {
  return { whole: places.ofNode(node), ...optional('cut', places.cut(node)) };
}

/** `otherwise` without a test is the last branch; what stands behind it is kept, as a case that never comes to be asked. */
function lowerWhen(node: ast.When, ids: StepIds, reader: Reader): When {
  const { places } = reader;
  const cases: WhenCase[] = [];
  let otherwise: Block | undefined;
  for (const branch of [node.first, ...node.others]) {
    if (branch === undefined) continue;
    const body = lowerBlock(branch.body, ids, reader);
    const isLast = ast.isOtherwise(branch) && branch.test === undefined && !branch.asks;
    if (otherwise !== undefined) {
      reader.complain('Behind `otherwise` nothing more is asked; it comes last.', places.ofFirstWord(branch));
    }
    if (isLast) otherwise ??= body;
    else {
      const range = places.ofNode(branch.test ?? branch);
      const whole = { ...range, end: places.ofNode(branch).end };
      cases.push({ test: lowerTest(branch.test, range, reader), body, range, whole });
    }
  }
  return {
    kind: 'when',
    cases,
    ...optional('otherwise', otherwise),
    range: places.ofFirstWord(node),
    ...inText(node, reader),
  };
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
