import { degrees, type Metre, type Radian, si } from './si.js';

/**
 * What an estimate of filling takes for granted where no sheet says otherwise. Nobody measures these in a shop and no datasheet
 * gives them: they are assumptions, chosen so that usual resins fill within the usual holds of the trade (common practice), and
 * have to be shown beside whatever is computed from them. `calibrateGap` replaces the gap by a shop's own.
 */
export interface FillAssumptions {
  readonly gap: Metre;
  /** How far resin has to go from where it is let in. */
  readonly length: Metre;
  /** Clean glass; dirt and water make it larger, and the fill slower. */
  readonly contactAngle: Radian;
  readonly standing: 'assumed';
  readonly because: string;
}

/** The shapes of breaks that the assumptions tell apart. */
export type BreakShape = 'bullseye' | 'half-moon' | 'star' | 'combination' | 'short-crack';

/** Default assumptions by shape, all of them ours. */
export const fillAssumptions: Readonly<Record<BreakShape, FillAssumptions>> = {
  bullseye: assume(5e-6, 10e-3, 'A cone stands open wider than a leg; the far rim is 10 mm from the impact point.'),
  'half-moon': assume(4e-6, 10e-3, 'Part of a cone, and less open; the far rim fills last.'),
  star: assume(3e-6, 20e-3, 'Gaps of some micrometres reproduce the one to two minutes of the trade.'),
  combination: assume(3e-6, 20e-3, 'Its legs fill last, and they are as fine as those of a star.'),
  'short-crack': assume(3e-6, 25e-3, 'Resin is let in along the line, no more than 50 mm apart.'),
};

function assume(gap: number, length: number, because: string): FillAssumptions {
  return {
    gap: si(gap, 'length'),
    length: si(length, 'length'),
    contactAngle: degrees(0),
    standing: 'assumed',
    because,
  };
}
