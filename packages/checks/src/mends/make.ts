import type { Moment, Region } from '@quarrel/analysis';
import type { Act, Flow } from '@quarrel/model';
import type { Edit, Mend } from '../finding.js';
import type { Work } from '../rule.js';
import { confirmable, makersOf, type Wish } from './makers.js';
import { actWritten, addBefore, checkWritten, stopWritten, type Written, whenWritten } from './parts.js';
import { askedAt } from './situations.js';

/** The most acts that are offered to choose between. */
const mostActs = 3;

/** Where a mend puts a part, and what is so there. */
export interface Spot {
  /** In the words of a menu: `before this step`. */
  readonly words: string;
  readonly moment: Moment;
  /** Conditions that a region speaks of as they are found out behind this place. */
  readonly changing: ReadonlySet<string>;
  put(written: Written): Edit | undefined;
}

/** The place before a step. */
export function spotBefore(part: Flow, number: number, changing: ReadonlySet<string>, work: Work): Spot | undefined {
  const moment = work.run.steps[number]?.before;
  if (moment === undefined) return undefined;
  return { words: 'before this step', moment, changing, put: (written) => addBefore(part, work.layout, written) };
}

/**
 * Parts that make tests true at a spot which are not so in a region, and leave true what has to be `kept`: each of the acts that
 * can, or else a look; then a stop instead.
 */
export function mendsByMaking(
  { tests, kept, region }: Pick<Wish, 'tests' | 'kept' | 'region'>,
  spot: Spot,
  work: Work,
  except?: Act,
): readonly Mend[] {
  const { moment } = spot;
  const isAsked = (askedAt(region, moment, work, spot.changing) ?? 'always') !== 'always';
  const wish = { tests, kept, region: isAsked ? region : moment.reached, moment };
  const makers = makersOf(wish, work).filter((act) => act !== except);
  const mends = makers.slice(0, mostActs).flatMap((act) => mendByDoing(act, region, spot, work));
  const seen = makers.length === 0 ? confirmable(wish, work) : undefined;
  const looks =
    seen === undefined
      ? []
      : put(`Look for ${seen.state} ${seen.value}`, checkWritten(seen.state, seen.value), region, spot, work);
  return [...mends, ...looks, ...mendByStopping(region, spot, work)];
}

/** A step that does an act in the situations of a region, or everywhere where they cannot be told apart there. */
export function mendByDoing(act: Act, region: Region, spot: Spot, work: Work): readonly Mend[] {
  return put(`Do ${act.name}`, actWritten(act, work.procedure), region, spot, work);
}

/** A stop in the situations of a region; none where they are all there are, as nothing would be left to do. */
export function mendByStopping(region: Region, spot: Spot, work: Work): readonly Mend[] {
  const test = askedAt(region, spot.moment, work, spot.changing);
  if (test === undefined || test === 'always') return [];
  const edit = spot.put(whenWritten(test, stopWritten));
  return edit === undefined ? [] : [{ title: `Stop ${spot.words} in these situations`, edits: [edit] }];
}

function put(what: string, written: Written, region: Region, spot: Spot, work: Work): readonly Mend[] {
  const test = askedAt(region, spot.moment, work, spot.changing) ?? 'always';
  const edit = spot.put(whenWritten(test, written));
  if (edit === undefined) return [];
  return [{ title: `${what} ${spot.words}${test === 'always' ? '' : ' in these situations'}`, edits: [edit] }];
}
