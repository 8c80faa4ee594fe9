import type { Assumed, Assumptions } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import * as ast from '../generated/ast.js';
import { because } from './acts.js';
import { lowerSpan } from './quantities.js';
import { optional, type Reader, resolved } from './reader.js';
import { lowerTest } from './tests.js';
import { type AssumedShape, topics } from './topics.js';

/** What a block assumes; lines that cannot be read are left out, and nothing is left of a topic that nobody knows. */
export function lowerAssume(node: ast.Assume, reader: Reader): Assumptions | undefined {
  const { topic } = node;
  if (topic === undefined) return undefined;
  const range = reader.places.ofProperty(node, 'topic');
  const shapes = Object.hasOwn(topics, topic) ? topics[topic] : undefined;
  if (shapes === undefined) {
    const candidates = nearest(topic, Object.keys(topics));
    reader.report({ rule: 'unknown-name', sought: 'topic of assumptions', name: topic, candidates, range });
    return undefined;
  }
  return {
    kind: 'assumptions',
    topic,
    label: node.label ?? topic,
    acts: node.lines.filter(ast.isDuring).flatMap(({ acts }) => acts.flatMap((act) => resolved(act) ?? [])),
    lines: node.lines.filter(ast.isAssumed).flatMap((line) => lowerAssumed(line, topic, shapes, reader) ?? []),
    range,
  };
}

function lowerAssumed(
  node: ast.Assumed,
  topic: string,
  shapes: Readonly<Record<string, AssumedShape>>,
  reader: Reader,
): Assumed | undefined {
  const { property } = node;
  if (property === undefined) return undefined;
  const range = reader.places.ofProperty(node, 'property');
  const shape = Object.hasOwn(shapes, property) ? shapes[property] : undefined;
  if (shape === undefined) {
    const candidates = nearest(property, Object.keys(shapes));
    reader.report({ rule: 'unknown-name', sought: `assumption about ${topic}`, name: property, candidates, range });
    return undefined;
  }
  const amount = node.reading === undefined ? lowerValue(node, shape, reader) : lowerReadingOf(node, shape, reader);
  const [when, second] = node.when;
  if (second !== undefined) reader.complain('An assumption has one `when`.', reader.places.ofNode(second));
  if (amount === undefined) return undefined;
  return {
    property,
    amount,
    ...optional('when', when === undefined ? undefined : lowerTest(when, reader.places.ofNode(node), reader)),
    ...because(node),
    range,
  };
}

function lowerValue(node: ast.Assumed, shape: AssumedShape, reader: Reader): Assumed['amount'] | undefined {
  if (shape.isReading === true) return writtenOtherwise(node, shape, reader);
  const span = lowerSpan(node.value, { words: node.property, dimensions: shape.value }, reader);
  return span === undefined ? undefined : { kind: 'value', span };
}

/** The reading that gives a value, where one may and it measures the right thing. */
function lowerReadingOf(node: ast.Assumed, shape: AssumedShape, reader: Reader): Assumed['amount'] | undefined {
  const reading = node.reading?.ref;
  const dimension = reading === undefined ? undefined : reader.dimensionOf(reading);
  if (reading?.name === undefined || dimension === undefined) return undefined;
  if (shape.isReading === true && shape.value.includes(dimension)) return { kind: 'reading', name: reading.name };
  return writtenOtherwise(node, shape, reader);
}

function writtenOtherwise(node: ast.Assumed, { example }: AssumedShape, reader: Reader): undefined {
  reader.complain(`Write it like this: \`${example}\`.`, reader.places.ofNode(node));
}
