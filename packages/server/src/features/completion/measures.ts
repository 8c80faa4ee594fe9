import { ast, propertyShapes, topics } from '@quarrel/language';
import { type Dimension, units } from '@quarrel/model';
import { CompletionItemKind } from 'vscode-languageserver';
import { type Frame, metIn, type Thread } from '../place/threads.js';
import { type Asked, declared } from './asked.js';
import type { Offer } from './offer.js';

/** Units: those that fit what is measured, or all where that cannot be told. */
export function unitsFor({ frame }: Thread, asked: Asked): readonly Offer[] {
  const owner = ownerOf(frame);
  const dimensions = owner === undefined ? undefined : dimensionsOf(owner.frame, owner.feature, asked);
  return units
    .filter(({ dimension }) => dimensions === undefined || dimensions.includes(dimension))
    .map(({ name, dimension, spellings }) => ({
      label: name,
      kind: CompletionItemKind.Unit,
      rank: dimensions === undefined ? 1 : dimensions.indexOf(dimension),
      detail: dimension.replace('-', ' '),
      ...(spellings === undefined ? {} : { words: spellings.join(' ') }),
    }));
}

/** The lines that a datasheet of this kind can have and that are not there yet. */
export function propertiesFor({ frame }: Thread, asked: Asked): readonly Offer[] {
  const [kind] = metIn(frame, 'Thing', 'kind');
  return linesOf(shapesOf(kind), asked);
}

/** What can be assumed in this block. A line may stand several times, for different situations. */
export function assumptionsFor({ frame }: Thread): readonly Offer[] {
  return Object.entries(topics[metIn(frame, 'Assume', 'topic')[0] ?? ''] ?? {}).map(([label, { example }]) => ({
    label,
    kind: CompletionItemKind.Property,
    rank: 1,
    detail: example,
  }));
}

/** What can be assumed about. */
export function topicsFor(): readonly Offer[] {
  return Object.entries(topics).map(([label, lines]) => ({
    label,
    kind: CompletionItemKind.Property,
    rank: 1,
    detail: Object.keys(lines).join(', '),
  }));
}

function linesOf(shapes: Readonly<Record<string, { readonly example: string }>>, { place }: Asked): readonly Offer[] {
  const items = place.levels.at(-1)?.items ?? [];
  const there = new Set(items.map(({ tokens }) => tokens[0]?.image));
  return Object.entries(shapes)
    .filter(([name]) => !there.has(name))
    .map(([label, { example }]) => ({ label, kind: CompletionItemKind.Property, rank: 1, detail: example }));
}

function shapesOf(kind: string | undefined): (typeof propertyShapes)[keyof typeof propertyShapes] {
  return Object.entries(propertyShapes).find(([name]) => name === kind)?.[1] ?? {};
}

/** What a quantity belongs to, and as what. */
function ownerOf(frame: Frame): { readonly frame: Frame; readonly feature: string | undefined } | undefined {
  let at: Frame | undefined = frame;
  let feature: string | undefined;
  while (at !== undefined && /^(Amount|Quantity|Span)$/.test(at.rule)) {
    feature = at.feature;
    at = at.around;
  }
  return at === undefined ? undefined : { frame: at, feature };
}

/** What may be measured there, the most likely first; nothing where it may be anything. */
function dimensionsOf(frame: Frame, feature: string | undefined, asked: Asked): readonly Dimension[] | undefined {
  switch (frame.rule) {
    case 'Takes':
    case 'Hold':
    case 'Lasts':
    case 'Response':
    case 'HoldBound':
      return ['time'];
    case 'With':
      return ['drops', 'ml', 'pieces'].flatMap((name) => units.find((unit) => unit.name === name)?.dimension ?? []);
    case 'Comparison':
      return readingDimension(metIn(frame, 'Comparison', 'subject')[0], asked);
    case 'Accept':
      return readingDimension(readingAbove(asked), asked);
    case 'PropertyEntry': {
      const shape = shapesOf(metIn(frame, 'Thing', 'kind')[0])[metIn(frame, 'Property', 'property')[0] ?? ''];
      if (feature !== 'at') return shape?.value;
      return shape?.joint === undefined ? undefined : [shape.joint.dimension];
    }
    case 'Assumed':
      return topics[metIn(frame, 'Assume', 'topic')[0] ?? '']?.[metIn(frame, 'Assumed', 'property')[0] ?? '']?.value;
    default:
      return undefined;
  }
}

/** The reading that an `accept` belongs to: the one read last above it. */
function readingAbove({ place }: Asked): string | undefined {
  const items = (place.levels.at(-1)?.items ?? []).filter(({ isBehind }) => !isBehind);
  return items.findLast(({ tokens }) => tokens[0]?.image === 'read')?.tokens[1]?.image;
}

function readingDimension(name: string | undefined, asked: Asked): readonly Dimension[] | undefined {
  const node = declared(asked, 'subject', name);
  if (!ast.isReading(node)) return undefined;
  const unit = node.range?.high?.amounts.at(-1)?.unit;
  const dimension = units.find((one) => one.name === unit || one.spellings?.includes(unit ?? ''))?.dimension;
  return dimension === undefined ? undefined : [dimension];
}
