import type { Region } from '@quarrel/analysis';
import type { Block, Flow, Repeat, Step, When } from '@quarrel/model';
import type { BranchCase, ChecklistStep, FlowPart } from '../checklist.js';
import { circumstanceOf, simplified, wordTest } from './conditions.js';
import type { Context } from './context.js';
import { rangeOf } from './quantities.js';
import { compileStep, orElseStop } from './step.js';

export interface CompiledFlow {
  readonly flow: readonly FlowPart[];
  /** In program order. */
  readonly steps: readonly ChecklistStep[];
}

/** The procedure without what no job of the run comes to, and with the branches that are decided opened up. */
export function compileFlow(context: Context): CompiledFlow {
  const { procedure, run, numbering } = context;
  const nowhere = run.situations.store.nowhere;
  const steps: ChecklistStep[] = [];
  const counters = new Map<string, number>();

  const block = (parts: Block, during?: ChecklistStep): readonly FlowPart[] =>
    parts.flatMap((part) => compilePart(part, during));

  const compilePart = (part: Flow, during?: ChecklistStep): readonly FlowPart[] => {
    switch (part.kind) {
      case 'step':
        return compileOneStep(part, during);
      case 'stage': {
        const body = block(part.body, during);
        return body.length === 0 ? [] : [{ kind: 'stage', label: part.label, body }];
      }
      case 'when':
        return when(part, during);
      case 'repeat':
        return repeat(part, during);
      case 'stop': {
        const number = numbering.of(part);
        const taken = run.stops.some(
          ({ by, region }) => by.kind === 'stop' && by.stop === number && region !== nowhere,
        );
        return taken ? [{ kind: 'stop', reason: part.reason }] : [];
      }
    }
  };

  const compileOneStep = (step: Step, during?: ChecklistStep): readonly FlowPart[] => {
    const record = run.steps[numbering.of(step)];
    if (record === undefined || record.before.reached === nowhere) return [];
    const count = (counters.get(during?.number ?? '') ?? 0) + 1;
    counters.set(during?.number ?? '', count);
    const place =
      during === undefined ? { number: `${count}` } : { number: `${during.number}.${count}`, during: during.id };
    const compiled = compileStep(step, record, place, context);
    steps.push(compiled);
    const meanwhile = step.effects.flatMap((effect) =>
      effect.kind === 'meanwhile' ? block(effect.body, compiled) : [],
    );
    return [{ kind: 'step', step: step.id, meanwhile }];
  };

  /** A case that holds wherever it is asked leaves nothing to the ones behind it. */
  const when = (part: When, during?: ChecklistStep): readonly FlowPart[] => {
    const first = numbering.firstCaseOf(part);
    const cases: BranchCase[] = [];
    const branch = (region: Region, body: readonly FlowPart[]): readonly FlowPart[] => {
      if (cases.length === 0) return body;
      if (body.length === 0 && cases.every((one) => one.body.length === 0)) return [];
      if (body.length === 0) return [{ kind: 'branch', cases }];
      const asked = run.cases[first]?.asked ?? nowhere;
      const tests = part.cases.map((one) => one.test);
      const circumstance = circumstanceOf(region, asked, tests, run.situations);
      return [{ kind: 'branch', cases, otherwise: { circumstance, body } }];
    };
    for (const [index, one] of part.cases.entries()) {
      const record = run.cases[first + index];
      if (record === undefined || record.holds === nowhere) continue;
      const body = block(one.body, during);
      const { fails } = run.situations.region(one.test);
      if (run.situations.store.and(record.asked, fails) === nowhere) return branch(record.holds, body);
      const text = wordTest(simplified(one.test, record.asked, run.situations), procedure.vocabulary);
      const test = run.situations.describe(record.holds, record.asked);
      cases.push({ circumstance: { test, text }, body });
    }
    const rest = run.fallthroughs[numbering.of(part)] ?? nowhere;
    return branch(rest, rest === nowhere ? [] : block(part.otherwise ?? [], during));
  };

  const repeat = (part: Repeat, during?: ChecklistStep): readonly FlowPart[] => {
    const record = run.repeats[numbering.of(part)];
    if (record === undefined || record.entered === nowhere) return [];
    return [
      {
        kind: 'repeat',
        ...(part.until === undefined ? {} : { until: part.until }),
        ...(part.atMost === undefined ? {} : { atMost: part.atMost }),
        body: block(part.body, during),
        ...orElseStop(part.orElseStop),
        ...(record.time === undefined ? {} : { time: rangeOf(record.time.least, record.time.most) }),
      },
    ];
  };

  return { flow: block(procedure.body), steps };
}
