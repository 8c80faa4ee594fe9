import type { Comparison, SourceRange, Test } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import { lowerEnds, lowerQuantity } from './quantities.js';
import type { Reader } from './reader.js';

const comparisons: Readonly<Record<NonNullable<ast.Comparison['relation']>, Comparison>> = {
  below: 'below',
  '<': 'below',
  most: 'at-most',
  '<=': 'at-most',
  above: 'above',
  '>': 'above',
  least: 'at-least',
  '>=': 'at-least',
};

/** A test as data; what could not be read is `unknown` and stands at `place`. */
export function lowerTest(node: ast.Test | undefined, place: SourceRange, reader: Reader): Test {
  if (node === undefined) return { kind: 'unknown', range: place };
  const range = reader.places.ofNode(node);
  switch (node.$type) {
    case 'Always':
      return { kind: 'always', range };
    case 'Bracketed':
      return lowerTest(node.test, range, reader);
    case 'Negation':
      return { kind: 'not', test: lowerTest(node.test, range, reader), range };
    case 'Junction':
      return lowerJunction(node, range, reader);
    case 'Comparison':
      return lowerComparison(node, range, reader) ?? { kind: 'unknown', range };
    default:
      // The parser gives up on a test of which it has not seen enough to say of what kind it is.
      return { kind: 'unknown', range };
  }
}

/** `and` and `or` on one level: read as `and` first, and reported. */
function lowerJunction(node: ast.Junction, range: SourceRange, reader: Reader): Test {
  const groups = partedBy('or', node);
  const lost = node.operators.length >= node.parts.length;
  if (node.operators.includes('and') && node.operators.includes('or')) {
    reader.report({
      rule: 'mixed-and-or',
      text: (node.$cstNode?.text ?? '').replace(/\s+/g, ' '),
      andParts: stretchesOf(groups, reader),
      orParts: stretchesOf(partedBy('and', node), reader),
      range,
    });
  }
  const alternatives = groups.map((group): Test => {
    const tests = group.map((part) => lowerTest(part, range, reader));
    const [first, second] = tests;
    if (first !== undefined && second === undefined) return first;
    return { kind: 'and', tests, range: spanned(tests, range) };
  });
  // A part that is missing, as in `a is x and {`, may come out either way.
  const [only] = alternatives;
  if (lost)
    return { kind: node.operators.at(-1) ?? 'and', tests: [...alternatives, { kind: 'unknown', range }], range };
  return alternatives.length === 1 && only !== undefined
    ? { ...only, range }
    : { kind: 'or', tests: alternatives, range };
}

/** The parts of a junction in groups, a new one behind every `operator`. */
function partedBy(operator: 'and' | 'or', node: ast.Junction): readonly (readonly ast.Test[])[] {
  const groups: ast.Test[][] = [[]];
  for (const [at, part] of node.parts.entries()) {
    if (at > 0 && node.operators[at - 1] === operator) groups.push([]);
    groups.at(-1)?.push(part);
  }
  return groups;
}

/** Where the groups of more than one part stand. */
function stretchesOf(groups: readonly (readonly ast.Test[])[], { places }: Reader): readonly SourceRange[] {
  return groups.flatMap((group) => {
    const [first, last] = [group[0], group.at(-1)];
    return first === undefined || last === undefined || first === last ? [] : [places.between(first, last)];
  });
}

function spanned(tests: readonly Test[], whole: SourceRange): SourceRange {
  return { ...whole, start: tests[0]?.range.start ?? whole.start, end: tests.at(-1)?.range.end ?? whole.end };
}

function lowerComparison(node: ast.Comparison, range: SourceRange, reader: Reader): Test | undefined {
  const subject = reader.subjectOf(node);
  if (subject === undefined) return undefined;
  if (node.values.length > 0) {
    if (subject.kind === 'reading') return wrongKind(node, 'observation', reader);
    const values = node.values.map((value) => value.$refText);
    const known = new Set(subject.values.map(({ name }) => name));
    if (!values.every((value) => known.has(value))) return undefined;
    return { kind: 'is', subject: subject.name, values: [...new Set(values)], negated: node.negated, range };
  }
  const isAmount = node.quantity !== undefined || node.low !== undefined || node.high !== undefined;
  if (!isAmount) return undefined;
  if (subject.kind !== 'reading') return wrongKind(node, 'reading', reader);
  const purpose = { words: subject.name, dimensions: [subject.dimension] };
  if (node.low !== undefined || node.high !== undefined) {
    const ends = lowerEnds(node.low, node.high, purpose, reader);
    return ends === undefined ? undefined : { kind: 'between', subject: subject.name, ...ends, range };
  }
  const quantity = lowerQuantity(node.quantity, purpose, reader);
  if (quantity === undefined) return undefined;
  const comparison = node.relation === undefined ? 'equal' : comparisons[node.relation];
  const test: Test = { kind: 'compare', subject: subject.name, comparison, quantity, range };
  return node.negated ? { kind: 'not', test, range } : test;
}

/** An amount is asked of something that has values, or the other way round. */
function wrongKind(node: ast.Comparison, sought: 'observation' | 'reading', reader: Reader): undefined {
  const name = node.subject.$refText;
  reader.report({
    rule: 'unknown-name',
    sought,
    name,
    candidates: nearest(name, reader.subjectsOfKind(sought)),
    range: reader.places.of(node.subject.$refNode),
  });
  return undefined;
}
