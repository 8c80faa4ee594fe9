import type { ast } from '@quarrel/language';
import {
  type Dimension,
  fromSi,
  type Quantity,
  type Span,
  settle,
  spokenDuration,
  toSi,
  type Unit,
  unitNamed,
} from '@quarrel/model';
import { plain } from './markdown.js';

/** What a quantity says, apart from how it is written. */
export type Amount = Pick<Quantity, 'dimension' | 'si' | 'unit'>;

/** A quantity in another unit. */
export interface Conversion {
  readonly unit: string;
  readonly text: string;
  /** Whether digits were left out. */
  readonly isRounded: boolean;
}

/** What a quantity is told in, besides as it is written. */
const told: Partial<Readonly<Record<Dimension, readonly string[]>>> = {
  temperature: ['°C', '°F'],
  length: ['nm', 'µm', 'mm', 'cm', 'm', 'inch'],
  time: ['s', 'min', 'h'],
  pressure: ['kPa', 'bar', 'psi', 'mmHg', 'inHg'],
  viscosity: ['mPa·s', 'cP', 'Pa·s'],
  irradiance: ['mW/cm²', 'W/m²'],
  dose: ['mJ/cm²', 'J/cm²', 'J/m²'],
};

/** From how much on, and up to how much, a number of this unit is one that people say. */
function isSaid(value: number, { name, dimension }: Unit): boolean {
  if (dimension === 'temperature') return true;
  const least = dimension === 'time' ? 1 : name === 'inch' ? 0.01 : 0.1;
  return Math.abs(value) >= least && Math.abs(value) < 10_000;
}

/** A quantity in the other units of its kind, as long as the number is one that people say. */
export function conversionsOf({ dimension, si, unit: written }: Amount): readonly Conversion[] {
  return (told[dimension] ?? []).flatMap((name) => {
    const unit = unitNamed(name);
    return unit === undefined || name === written || !isSaid(fromSi(si, unit), unit) ? [] : [converted(si, unit)];
  });
}

/** An SI value in a unit. */
export function converted(si: number, unit: Unit): Conversion {
  const value = fromSi(si, unit);
  const rounded = roundedTo(value);
  return { unit: unit.name, text: `${rounded} ${unit.name}`, isRounded: rounded !== value };
}

/** Four digits where they say all of it, else three. */
function roundedTo(value: number): number {
  if (Number.isInteger(value)) return value;
  const four = Number(value.toPrecision(4));
  return four === value ? four : Number(value.toPrecision(3));
}

/** A quantity of the tree, with the unit that the other end of its span lends it; nothing where it cannot be told. */
export function amountOf(node: ast.Quantity): Amount | undefined {
  const parts = node.amounts.map(({ number, unit }) => ({
    number,
    unit: unit === undefined ? lentTo(node) : unitNamed(unit),
  }));
  const first = parts[0]?.unit;
  const last = parts.at(-1)?.unit;
  if (first === undefined || last === undefined) return undefined;
  let si = 0;
  for (const { number, unit } of parts) {
    const value = Number(number?.replace('−', '-').replace(',', '.') ?? Number.NaN);
    if (unit === undefined || unit.dimension !== first.dimension || Number.isNaN(value)) return undefined;
    si += toSi(value, unit);
  }
  return { dimension: first.dimension, si: settle(si), unit: last.name };
}

function lentTo(node: ast.Quantity): Unit | undefined {
  const around = node.$container;
  if (!('high' in around) || around.high === undefined || around.high === node) return undefined;
  const unit = around.high.amounts.at(-1)?.unit;
  return unit === undefined ? undefined : unitNamed(unit);
}

/** A quantity as it is written, and what it is in other units; nothing where there is nothing more to say. */
export function quantityHover(node: ast.Quantity): string | undefined {
  const amount = amountOf(node);
  if (amount === undefined) return undefined;
  const isOne = node.amounts.length === 1;
  const words = conversionsOf(isOne ? amount : { ...amount, unit: '' }).map(
    ({ text, isRounded }) => `${isRounded ? '≈' : '='} ${text}`,
  );
  const mixed = amount.dimension === 'time' && amount.si >= 60 && amount.si % 60 !== 0 && isOne;
  const all = mixed ? [`= ${spokenDuration(amount.si)}`, ...words] : words;
  if (all.length === 0) return undefined;
  const written = (node.$cstNode?.text ?? '').replace(/\s+/g, ' ');
  const unit = node.amounts.some((one) => one.unit === undefined) ? ` ${amount.unit}` : '';
  return `**${plain(`${written}${unit}`)}** ${all.join(' · ')}`;
}

/** A span as the language writes it; what is counted has its unit once: `4 to 6 drops`. */
export function spanWords({ least, most }: Span): string {
  if (least !== undefined && most !== undefined) {
    if (least.text === most.text) return least.text;
    const isCounted = least.unit === most.unit && (least.unit === 'drops' || least.unit === 'pieces');
    return `${isCounted ? least.si : least.text} to ${most.text}`;
  }
  if (least !== undefined) return `at least ${least.text}`;
  return most === undefined ? 'any amount' : `at most ${most.text}`;
}
