import { type Interval, interpret, type Run } from '@quarrel/analysis';
import { digestOf, type Procedure, stepsOf, type Test } from '@quarrel/model';
import type { Checklist, ChecklistStop } from '../checklist.js';
import { notice } from '../notice.js';
import { cautionsThroughout, sourcesOf, wearFor } from './cautions.js';
import { wordTest } from './conditions.js';
import { type Context, contextOf } from './context.js';
import { compileFlow } from './flow.js';
import { compileKit } from './kit.js';
import { limitsOf } from './limits.js';
import { rangeOf } from './quantities.js';

export interface CompileOptions {
  /** What the checklist is for; the run has to be made with the same. */
  readonly suppose?: readonly Test[];
  /** Stamps the checklist as one that nobody may work from. */
  readonly draft?: boolean;
}

export type Compiled =
  | { readonly kind: 'checklist'; readonly checklist: Checklist }
  /** The procedure covers no situation in which all that is supposed holds. */
  | { readonly kind: 'not-covered' }
  /** The procedure is beyond what the engine can follow; these conditions make it so. */
  | { readonly kind: 'too-tangled'; readonly conditions: readonly string[] };

/** Runs a procedure as far as `suppose` narrows it and compiles its checklist. */
export function compileProcedure(procedure: Procedure, options: CompileOptions = {}): Compiled {
  const interpretation = interpret(procedure, undefined, { suppose: options.suppose ?? [] });
  if (interpretation.kind === 'too-tangled') return interpretation;
  const { run } = interpretation;
  if (run.covered === run.situations.store.nowhere) return { kind: 'not-covered' };
  return { kind: 'checklist', checklist: compileChecklist(procedure, run, options) };
}

/** The checklist of a procedure as a run of it tells it. `run` covers at least one situation. */
export function compileChecklist(procedure: Procedure, run: Run, options: CompileOptions = {}): Checklist {
  const suppose = options.suppose ?? [];
  const context = contextOf(procedure, run, suppose);
  const { flow, steps } = compileFlow(context);
  const cautions = cautionsThroughout(procedure);
  const total = run.end.moment.clock.over(run.end.moment.reached);
  return {
    procedure: {
      name: procedure.name,
      label: procedure.label,
      ...(procedure.revision === undefined ? {} : { revision: procedure.revision }),
      ...(procedure.documentation === undefined ? {} : { documentation: procedure.documentation }),
    },
    digest: digestOf({ procedure, suppose }),
    draft: options.draft ?? false,
    scope: {
      supposed: suppose.map((test) => wordTest(test, procedure.vocabulary)),
      covers: procedure.covers.map((test) => wordTest(test, procedure.vocabulary)),
    },
    cautions,
    kit: { things: compileKit(steps, context), wear: wearFor(cautions, steps) },
    limits: limitsOf(context),
    flow,
    steps,
    ...(total === undefined ? {} : { total: rangeOf(total.least, total.most) }),
    stops: stopsOf(context),
    sources: sourcesOf([...cautions, ...steps.flatMap((step) => step.cautions)]),
    notice,
  };
}

/** The ways to stop, one entry for each reason. */
function stopsOf({ procedure, run }: Context): readonly ChecklistStop[] {
  const ids = stepsOf(procedure).map((step) => step.id);
  const byReason = new Map<string, { readonly steps: readonly string[]; readonly time: Interval }>();
  for (const stop of run.stops) {
    const time = stop.clock.over(stop.region);
    if (time === undefined) continue;
    const step = stop.by.kind === 'effect' ? ids[stop.by.step] : undefined;
    const known = byReason.get(stop.reason);
    byReason.set(stop.reason, {
      steps: [...new Set([...(known?.steps ?? []), ...(step === undefined ? [] : [step])])],
      time: {
        least: Math.min(known?.time.least ?? time.least, time.least),
        most: Math.max(known?.time.most ?? time.most, time.most),
      },
    });
  }
  return [...byReason].map(([reason, { steps, time }]) => ({ reason, steps, total: rangeOf(time.least, time.most) }));
}
