import type { Property, PropertyEntry, Thing } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import { declared } from './declared.js';
import { type PropertyShape, propertyShapes } from './properties.js';
import { lowerQuantity, lowerSpan } from './quantities.js';
import { optional, type Reader } from './reader.js';

/** A thing with the lines of its datasheet; lines that cannot be read are left out. */
export function lowerThing(node: ast.Thing, reader: Reader): Thing | undefined {
  const own = declared(node, reader);
  if (own === undefined) return undefined;
  const shapes = propertyShapes[node.kind];
  const met = new Map<string, ast.Property>();
  const properties: Property[] = [];
  for (const property of node.properties) {
    const name = property.property;
    if (name === undefined) continue;
    const range = reader.places.ofProperty(property, 'property');
    const shape = Object.hasOwn(shapes, name) ? shapes[name] : undefined;
    const before = met.get(name);
    if (shape === undefined) {
      const sought = `property of ${/^[aeiou]/.test(node.kind) ? 'an' : 'a'} ${node.kind}`;
      reader.report({ rule: 'unknown-name', sought, name, candidates: nearest(name, Object.keys(shapes)), range });
    } else if (before !== undefined) {
      const other = reader.places.ofProperty(before, 'property');
      reader.report({ rule: 'name-clash', name, what: 'property', other, range });
    } else {
      met.set(name, property);
      const entries = property.entries.flatMap((entry) => lowerEntry(entry, name, shape, reader) ?? []);
      properties.push({ name, entries, range });
    }
  }
  return { kind: node.kind, ...own, properties };
}

function lowerEntry(
  node: ast.PropertyEntry,
  name: string,
  shape: PropertyShape,
  reader: Reader,
): PropertyEntry | undefined {
  const { joint } = shape;
  // What stands where the joint lacks was read as part of the value; a word about that would be a second one on one fault.
  if (joint?.word !== node.joint) {
    if (node.value !== undefined)
      reader.complain(`Write it like this: \`${shape.example}\`.`, reader.places.ofNode(node));
    return undefined;
  }
  const value = lowerSpan(node.value, { words: name, dimensions: shape.value }, reader);
  const at =
    joint === undefined
      ? undefined
      : lowerQuantity(node.at, { words: `what follows "${joint.word}"`, dimensions: [joint.dimension] }, reader);
  if (value === undefined || (joint !== undefined && at === undefined)) return undefined;
  return { value, ...optional('at', at) };
}
