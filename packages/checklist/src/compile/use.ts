import type { ThingKind } from '@quarrel/model';

/** What a job uses of one thing. */
export interface Use {
  /** Whether a job takes it in hand at all: `no`, `maybe` or `surely`. */
  readonly taken: Taken;
  readonly amounts: readonly Amount[];
}

export type Taken = 'no' | 'maybe' | 'surely';

/** In SI, in the unit it is spoken of in; `most` may be infinite. */
export interface Amount {
  readonly unit: string;
  readonly least: number;
  readonly most: number;
}

export const unused: Use = { taken: 'no', amounts: [] };

/** Two uses one after the other: what is used up adds, of what is used again the larger one counts. */
export function inTurn(kind: ThingKind): (a: Use, b: Use) => Use {
  const usedUp = kind === 'resin' || kind === 'consumable';
  return (a, b) => ({
    taken: [a.taken, b.taken].find((one) => one === 'surely') ?? (a.taken === 'no' ? b.taken : a.taken),
    amounts: paired(a, b).map(([unit, x, y]) =>
      usedUp
        ? { unit, least: x.least + y.least, most: x.most + y.most }
        : { unit, least: Math.max(x.least, y.least), most: Math.max(x.most, y.most) },
    ),
  });
}

/** One use or the other: from the least to the most of both. */
export function oneOf(a: Use, b: Use): Use {
  return {
    taken: a.taken === b.taken ? a.taken : 'maybe',
    amounts: paired(a, b).map(([unit, x, y]) => ({
      unit,
      least: Math.min(x.least, y.least),
      most: Math.max(x.most, y.most),
    })),
  };
}

/** From one to `passes` times the use. */
export function repeated(use: Use, passes: number, kind: ThingKind): Use {
  const times = (most: number): number => (most === 0 ? 0 : most * passes);
  const usedUp = kind === 'resin' || kind === 'consumable';
  return usedUp ? { ...use, amounts: use.amounts.map((one) => ({ ...one, most: times(one.most) })) } : use;
}

/** The amounts of two uses unit by unit; what one does not mention is none. */
function paired(a: Use, b: Use): readonly (readonly [string, Amount, Amount])[] {
  const found = (use: Use, unit: string): Amount =>
    use.amounts.find((amount) => amount.unit === unit) ?? { unit, least: 0, most: 0 };
  const units = new Set([...a.amounts, ...b.amounts].map((amount) => amount.unit));
  return [...units].map((unit) => [unit, found(a, unit), found(b, unit)]);
}
