import type { Block, Flow, Stop, When } from '@quarrel/model';
import { subjectsOf } from '@quarrel/model';
import type { Region } from '../diagram/diagram.js';
import type { Situations } from '../situations/situations.js';
import type { CaseNotes, Ledger } from './ledger.js';
import type { Numbering } from './numbering.js';
import type { Debts } from './owed.js';
import { runRepeat } from './repeat.js';
import { runStep } from './step.js';
import { gather, type Strand, within } from './strand.js';
import type { Tracks } from './tracks.js';

/** What running a procedure needs at hand. */
export interface Course {
  readonly situations: Situations;
  readonly covered: Region;
  readonly tracks: Tracks;
  readonly debts: Debts;
  readonly ledger: Ledger;
  readonly numbering: Numbering;
  /** How often runs have read a condition again so far. */
  readonly tally: { rereadings: number };
}

/** What one visit to a part of the flow counts against the bounds of a run. */
const costOfVisit = 20;

/** Runs a block: the strands that come to its end. */
export function runBlock(course: Course, block: Block, strands: readonly Strand[]): readonly Strand[] {
  return block.reduce((arrived, part) => (arrived.length === 0 ? arrived : runPart(course, part, arrived)), strands);
}

function runPart(course: Course, part: Flow, strands: readonly Strand[]): readonly Strand[] {
  course.situations.store.spend(costOfVisit);
  switch (part.kind) {
    case 'step':
      return runStep(course, part, strands);
    case 'stage':
      return runBlock(course, part.body, strands);
    case 'when':
      return runWhen(course, part, strands);
    case 'repeat':
      return runRepeat(course, part, strands);
    case 'stop':
      return runStop(course, part, strands);
  }
}

function runStop(course: Course, part: Stop, strands: readonly Strand[]): readonly Strand[] {
  const by = { kind: 'stop', stop: course.numbering.of(part) } as const;
  for (const strand of strands) course.ledger.stop(by, part.reason, strand.reached, strand.now);
  return [];
}

function runWhen(course: Course, part: When, strands: readonly Strand[]): readonly Strand[] {
  const { situations, ledger, numbering } = course;
  const first = numbering.firstCaseOf(part);
  const arrived: { readonly strands: readonly Strand[]; readonly holds: Region }[] = [];
  let asking = strands;
  for (const [index, { test, body }] of part.cases.entries()) {
    const { holds, fails } = situations.region(test);
    const notes = ledger.cases[first + index];
    if (notes !== undefined) noteCase(course, notes, asking, test, holds);
    arrived.push({ strands: runBlock(course, body, restricted(situations, asking, holds)), holds });
    asking = restricted(situations, asking, fails);
  }
  for (const strand of asking) ledger.fallthroughs[numbering.of(part)]?.add(strand.reached);
  const rest = runBlock(course, part.otherwise ?? [], asking);
  let met = rest;
  for (const { strands: came, holds } of arrived.reverse()) met = gather(situations, [...came, ...met], holds);
  return met;
}

function noteCase(
  course: Course,
  notes: CaseNotes,
  asking: readonly Strand[],
  test: When['cases'][number]['test'],
  holds: Region,
): void {
  const { store } = course.situations;
  notes.free ||= isUnreadable(test);
  for (const strand of asking) {
    notes.asked.add(strand.reached);
    notes.holds.add(store.and(strand.reached, holds));
    for (const condition of subjectsOf(test)) {
      notes.unknown.add(condition, unknownIn(course, strand, condition));
    }
  }
}

function isUnreadable(test: When['cases'][number]['test']): boolean {
  switch (test.kind) {
    case 'unknown':
      return true;
    case 'not':
      return isUnreadable(test.test);
    case 'and':
    case 'or':
      return test.tests.some(isUnreadable);
    default:
      return false;
  }
}

/** Where some run of the strand does not know a condition. */
export function unknownIn(course: Course, strand: Strand, condition: string): Region {
  const { store } = course.situations;
  const level = course.situations.levelOf(condition);
  const known = level === undefined ? undefined : strand.known[level];
  return known === undefined ? store.nowhere : store.without(strand.reached, known);
}

export function restricted(situations: Situations, strands: readonly Strand[], region: Region): readonly Strand[] {
  return strands.map((strand) => within(situations, strand, region)).filter((strand) => strand !== undefined);
}
