import type { Choice, Effect, Step } from '@quarrel/model';
import { subjectsOf } from '@quarrel/model';
import type { ByScenario, Region } from '../diagram/diagram.js';
import { laterOf } from './clock.js';
import { type Course, restricted, runBlock, unknownIn } from './flow.js';
import { longer, plus, secondsOf } from './interval.js';
import { type StepNotes, type ThingNotes, widened } from './ledger.js';
import type { Interval } from './records.js';
import { renew } from './renew.js';
import { beginLap, endLap, gather, lapsLater, type Strand } from './strand.js';

/** Runs one step: the strands that come to its end. */
export function runStep(course: Course, step: Step, strands: readonly Strand[]): readonly Strand[] {
  const number = course.numbering.of(step);
  const notes = course.ledger.steps[number];
  if (notes === undefined) throw new RangeError('a step without a number');
  const visit: Visit = { course, step, number, notes, takes: secondsOf(step.takes), hold: secondsOf(step.hold) };
  for (const strand of strands) notes.before.add(strand);
  let present: readonly Strand[] = strands.map((strand) => begin(visit, strand));
  for (const [index, effect] of step.effects.entries()) {
    present = gather(
      course.situations,
      present.flatMap((strand) => take(visit, index, effect, strand)),
    );
  }
  const ended = gather(
    course.situations,
    present.map((strand) => end(visit, strand)),
  );
  for (const strand of ended) notes.after.add(strand);
  return ended;
}

/** One visit to a step, and what it needs at hand. */
interface Visit {
  readonly course: Course;
  readonly step: Step;
  readonly number: number;
  readonly notes: StepNotes;
  readonly takes: Interval;
  readonly hold: Interval;
}

function hasMeanwhile(step: Step): boolean {
  return step.effects.some((effect) => effect.kind === 'meanwhile');
}

/** From here on the clock shows the end of the hands-on time; the end of the hold is known already. */
function begin({ course, step, takes, hold }: Visit, strand: Strand): Strand {
  const { situations, tracks } = course;
  const { store } = situations;
  const handsOff = strand.now.later(situations, store.constant(takes));
  const holdEnd = handsOff.later(situations, store.constant(hold));
  const announced = tracks.announce(strand, step.cautions);
  return { ...announced, now: handsOff, holdEnds: [...strand.holdEnds, holdEnd] };
}

function end({ course, step, notes, takes, hold }: Visit, strand: Strand): Strand {
  const { situations, debts } = course;
  const { store } = situations;
  const holdEnd = strand.holdEnds.at(-1) ?? strand.now;
  const over = { ...strand, holdEnds: strand.holdEnds.slice(0, -1) };
  if (!hasMeanwhile(step)) {
    const time = plus(takes, hold);
    return { ...debts.pass(over, time), now: holdEnd, laps: lapsLater(situations, over, store.constant(time)) };
  }
  const { lap, rest } = endLap(situations, over);
  const done = lap.total(situations);
  notes.outlasted.add(
    store.and(
      strand.reached,
      store.map(done, (time) => time.most > hold.most),
    ),
  );
  for (const value of situations.distinct(done, strand.reached)) notes.meanwhile = widened(notes.meanwhile, value);
  const inner = { ...rest, laps: rest.laps.slice(0, -1) };
  const time = store.map(done, (meanwhile) => plus(takes, longer(hold, meanwhile)));
  return {
    ...debts.endHold(inner),
    now: laterOf(situations, strand.now, holdEnd),
    laps: lapsLater(situations, inner, time),
  };
}

function take(visit: Visit, index: number, effect: Effect, strand: Strand): readonly Strand[] {
  const { course } = visit;
  switch (effect.kind) {
    case 'observe':
      return learn(course, effect.condition, strand);
    case 'read':
      return learn(course, effect.condition, strand).flatMap((known) => accept(visit, index, effect, known));
    case 'act':
      return [act(visit, index, effect.act, strand)];
    case 'with':
      takeInHand(visit, index, strand);
      return [strand];
    case 'check':
      return check(visit, index, effect, strand);
    case 'meanwhile':
      return meanwhile(visit, index, effect, strand);
  }
}

/** The first `meanwhile` of a step begins its hold; a further one goes on with it. */
function meanwhile(
  visit: Visit,
  index: number,
  effect: Effect & { readonly kind: 'meanwhile' },
  strand: Strand,
): readonly Strand[] {
  const { course, step, takes, hold } = visit;
  const isFirst = step.effects.findIndex((one) => one.kind === 'meanwhile') === index;
  const opened = { ...strand, laps: [...strand.laps, []] };
  const begun = isFirst ? course.debts.beginHold(beginLap(course.situations, opened), takes, hold) : strand;
  return runBlock(course, effect.body, [begun]);
}

/** A condition is seen or read: known from here on, and new where it was known before. */
function learn(course: Course, condition: string, strand: Strand): readonly Strand[] {
  const { situations, covered } = course;
  const level = situations.levelOf(condition);
  if (level === undefined) return [strand];
  const { store } = situations;
  const before = strand.known[level] ?? store.nowhere;
  const learned = (one: Strand): Strand => ({ ...one, known: one.known.with(level, store.everywhere) });
  const knowing = restricted(situations, [strand], before);
  course.tally.rereadings += knowing.length;
  const again = knowing.flatMap((one) => renew(situations, one, level, covered));
  const first = restricted(situations, [strand], store.not(before));
  return gather(situations, [...first, ...again].map(learned));
}

function accept(
  visit: Visit,
  index: number,
  effect: Effect & { readonly kind: 'read' },
  strand: Strand,
): readonly Strand[] {
  const { situations } = visit.course;
  if (effect.accept?.orElseStop === undefined || situations.levelOf(effect.condition) === undefined) return [strand];
  const accepted = situations.spanRegion(effect.condition, effect.accept.span);
  const refused = situations.store.without(strand.reached, accepted);
  stopAtEnd(visit, index, effect.accept.orElseStop, { ...strand, reached: refused });
  return restricted(situations, [strand], accepted);
}

/** Runs stop here: at the end of the step, as far as it has begun. */
function stopAtEnd({ course, number }: Visit, effect: number, reason: string, strand: Strand): void {
  if (strand.reached === course.situations.store.nowhere) return;
  const holdEnd = strand.holdEnds.at(-1) ?? strand.now;
  const clock = laterOf(course.situations, strand.now, holdEnd);
  course.ledger.stop({ kind: 'effect', step: number, effect }, reason, strand.reached, clock);
}

function check(
  visit: Visit,
  index: number,
  effect: Effect & { readonly kind: 'check' },
  strand: Strand,
): readonly Strand[] {
  const seen = effect.confirms === undefined ? strand : visit.course.tracks.make(strand, effect.confirms);
  if (effect.orElseStop === undefined) return effect.confirms === undefined ? [strand] : [seen, strand];
  stopAtEnd(visit, index, effect.orElseStop, strand);
  return [seen];
}

function act(visit: Visit, index: number, name: string, strand: Strand): Strand {
  const { course, number, notes } = visit;
  const { situations, tracks, debts } = course;
  const acting = notes.acts.find((one) => one.effect === index);
  const declared = situations.procedure.vocabulary.acts.find((one) => one.name === name);
  if (acting === undefined || declared === undefined) return strand;
  acting.reached.add(strand.reached);
  for (const hazard of declared.raises) {
    const track = tracks.layout.hazards.get(hazard);
    if (track !== undefined) acting.unannounced.add(hazard, tracks.flag(strand, track, 'not set'));
  }
  for (const [asked, track] of tracks.layout.acts) {
    acting.done.add(asked, tracks.flag(strand, track, 'set'));
    acting.notDone.add(asked, tracks.flag(strand, track, 'not set'));
  }
  for (const { response, region } of debts.late(strand, name)) acting.late.add(response, region);
  let ready = strand;
  for (const [position, need] of declared.needs.entries()) {
    const unmet = tracks.mayFail(ready, need.test);
    if (unmet === situations.store.nowhere) continue;
    acting.unmet[position]?.add(unmet);
    ready = tracks.mend(ready, need.test);
  }
  const made = declared.makes.reduce((done, one) => tracks.make(done, one), ready);
  return debts.done(tracks.done(made, name), name, { step: number, effect: index });
}

function takeInHand(visit: Visit, index: number, strand: Strand): void {
  const { course, step, notes } = visit;
  const { store } = course.situations;
  const effect = step.effects[index];
  const thing = notes.things.find((one) => one.effect === index);
  if (thing === undefined || effect?.kind !== 'with') return;
  thing.reached.add(strand.reached);
  const choice = course.situations.procedure.choices[thing.choice?.number ?? -1];
  const taken =
    choice === undefined ? store.constant<string | undefined>(effect.thing) : chosen(course, choice, thing, strand);
  thing.thing = store.choose(strand.reached, taken, thing.thing);
}

/** What a choice gives in each situation of a strand; notes where its cases leave a gap or clash. */
function chosen(course: Course, choice: Choice, notes: ThingNotes, strand: Strand): ByScenario<string | undefined> {
  const { situations } = course;
  const { store } = situations;
  const verdicts = choice.cases.map((one) => situations.region(one.test));
  const holds = verdicts.map((verdict) => store.and(strand.reached, verdict.holds));
  const rest = verdicts.reduce((left, verdict) => store.and(left, verdict.fails), strand.reached);
  notes.choice?.rest.add(rest);
  for (const [index, region] of holds.entries()) notes.choice?.cases[index]?.add(region);
  noteClashes(choice, notes, holds, (a, b) => store.and(a, b));
  for (const condition of new Set(choice.cases.flatMap((one) => subjectsOf(one.test)))) {
    notes.choice?.unknown.add(condition, unknownIn(course, strand, condition));
  }
  return choice.cases.reduceRight<ByScenario<string | undefined>>(
    (otherwise, one, index) =>
      store.choose(holds[index] ?? store.nowhere, store.constant<string | undefined>(one.thing), otherwise),
    store.constant(choice.otherwise?.name),
  );
}

function noteClashes(
  choice: Choice,
  notes: ThingNotes,
  holds: readonly Region[],
  and: (a: Region, b: Region) => Region,
): void {
  for (const [later, region] of holds.entries()) {
    for (const [earlier, other] of holds.slice(0, later).entries()) {
      if (choice.cases[earlier]?.thing === choice.cases[later]?.thing) continue;
      notes.choice?.clashes.add(`${earlier} ${later}`, and(other, region));
    }
  }
}
