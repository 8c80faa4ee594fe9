import type { Procedure, Test } from '@quarrel/model';
import { stepsOf } from '@quarrel/model';
import type { Region } from '../diagram/diagram.js';
import { sifted } from '../diagram/sift.js';
import { type Bounds, Outgrown } from '../diagram/store.js';
import { type Axis, axesOf } from '../situations/axes.js';
import { Situations } from '../situations/situations.js';
import { startsThatEnd } from './backward.js';
import { type Course, runBlock } from './flow.js';
import { layoutOf } from './layout.js';
import { Ledger, MomentNotes } from './ledger.js';
import { numberingOf } from './numbering.js';
import { Debts } from './owed.js';
import type { Questions } from './questions.js';
import type { Run } from './records.js';
import { gather, startStrand } from './strand.js';
import { Tracks } from './tracks.js';

export interface InterpretOptions {
  /** Narrows the situations a job starts in; a condition that is read again later can still take any value covered. */
  readonly suppose?: readonly Test[];
  /** What the run may cost; the usual bounds suit every procedure a person writes. */
  readonly bounds?: Bounds;
}

/** The meaning of a procedure, or the conditions and states that make it too tangled to be followed. */
export type Interpretation =
  | { readonly kind: 'run'; readonly run: Run }
  | { readonly kind: 'too-tangled'; readonly conditions: readonly string[] };

/** Reached within a second or two, and far beyond what procedures need. */
const usualBounds: Bounds = { nodes: 400_000, steps: 4_000_000 };

const noQuestions: Questions = { acts: [], responses: [], finals: [], tests: [] };

/**
 * Runs a procedure once, over every situation it covers at the same time: see docs/meaning.md for what comes out. Never throws
 * on a procedure the language can give.
 */
export function interpret(
  procedure: Procedure,
  questions: Questions = noQuestions,
  options: InterpretOptions = {},
): Interpretation {
  const suppose = options.suppose ?? [];
  const further = [
    ...suppose,
    ...questions.finals,
    ...questions.tests,
    ...questions.responses.flatMap((one) => (one.when === undefined ? [] : [one.when])),
  ];
  return attempt(procedure, questions, suppose, axesOf(procedure, further), options.bounds ?? usualBounds, shares);
}

/**
 * What part of the bounds each attempt may use: a run that outgrows its part is begun again with the axes in a better order for the
 * diagrams it had made until then.
 */
const shares = [1 / 40, 1 / 8, 1];

function attempt(
  procedure: Procedure,
  questions: Questions,
  suppose: readonly Test[],
  axes: readonly Axis[],
  bounds: Bounds,
  [share = 1, ...further]: readonly number[],
): Interpretation {
  const situations = new Situations(procedure, axes);
  const part = { nodes: Math.ceil(bounds.nodes * share), steps: Math.ceil(bounds.steps * share) };
  try {
    return { kind: 'run', run: situations.store.task(part, () => runOf(situations, questions, suppose)) };
  } catch (error) {
    if (!(error instanceof Outgrown)) throw error;
    if (further.length > 0 && error.names.length === 0) {
      const order = sifted(situations.store.branches(), situations.store.sizes).flatMap((level) => axes[level] ?? []);
      return attempt(procedure, questions, suppose, order, bounds, further);
    }
    const widest = error.widest.slice(0, 4).flatMap((level) => axes[level]?.name ?? []);
    return { kind: 'too-tangled', conditions: [...error.names, ...widest] };
  }
}

function runOf(situations: Situations, questions: Questions, suppose: readonly Test[]): Run {
  const { procedure } = situations;
  const covered = allHold(situations, procedure.covers);
  const supposed = situations.store.and(covered, allHold(situations, suppose));
  const numbering = numberingOf(procedure);
  const layout = layoutOf(procedure, questions);
  const tracks = new Tracks(situations, layout);
  const debts = new Debts(situations, questions.responses);
  const ledger = new Ledger(situations, tracks, procedure, numbering, stepsOf(procedure));
  const course: Course = { situations, covered, tracks, debts, ledger, numbering, tally: { rereadings: 0 } };
  const first = tracks.announce(startStrand(situations, layout, supposed), procedure.cautions);
  const start = supposed === situations.store.nowhere ? [] : [first];
  const ended = gather(situations, runBlock(course, procedure.body, start));
  const end = new MomentNotes(situations, tracks);
  for (const strand of ended) {
    end.add(strand);
    noteUnanswered(course, strand);
  }
  const steps = ledger.stepRecords();
  return {
    situations,
    covered: supposed,
    steps,
    cases: ledger.caseRecords(),
    fallthroughs: ledger.fallthroughs.map((growing) => growing.region),
    repeats: ledger.repeatRecords(),
    stops: ledger.stopRecords(),
    end: {
      moment: end.moment(),
      from: situations.store.and(supposed, startsThatEnd(situations, procedure, covered, numbering, steps)),
      unmet: questions.finals.map((test) =>
        ended.reduce(
          (region, strand) => situations.store.or(region, tracks.mayFail(strand, test)),
          situations.store.nowhere,
        ),
      ),
    },
  };
}

/** Where all of some tests can be read to hold. */
function allHold(situations: Situations, tests: readonly Test[]): Region {
  return tests.reduce(
    (region, test) => situations.store.and(region, situations.region(test).holds),
    situations.store.everywhere,
  );
}

/** What is still owed at the end is noted at the act that began it. */
function noteUnanswered(course: Course, strand: Parameters<Debts['open']>[0]): void {
  const { debts, ledger } = course;
  for (const debt of strand.owed.values()) {
    const act = ledger.steps[debt.by.step]?.acts.find((one) => one.effect === debt.by.effect);
    act?.unanswered.add(debt.response, debts.open(strand, debt));
  }
}
