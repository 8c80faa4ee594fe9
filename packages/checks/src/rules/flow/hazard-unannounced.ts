import type { Step } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { addFirst, addToProcedure } from '../../mends/clauses.js';
import type { FlowRule, Work } from '../../rule.js';
import { isSomewhere, whereAtStep } from '../../work.js';

/** An act raises a hazard that no step has announced yet. */
export const hazardUnannounced: FlowRule = {
  name: 'hazard-unannounced',
  family: 'flow',
  severity: 'warning',
  title: 'An act raises a hazard that nothing has announced before',
  *run(work) {
    for (const [number, step] of work.steps.entries()) {
      const acts = work.run.steps[number]?.acts ?? [];
      const raised = acts.flatMap((record) =>
        record.unannounced
          .filter(({ region }) => isSomewhere(work, region))
          .map(({ hazard, region }) => ({ hazard, region, record })),
      );
      for (const name of new Set(raised.map(({ hazard }) => hazard))) {
        const all = raised.filter(({ hazard }) => hazard === name);
        const first = all[0];
        const effect = first === undefined ? undefined : step.effects[first.record.effect];
        const hazard = work.procedure.vocabulary.hazards.find((one) => one.name === name);
        if (first === undefined || effect === undefined || hazard === undefined) continue;
        yield {
          range: effect.range,
          message: `"${first.record.act}" raises ${name} (${hazard.label}, ${hazard.signal}), and nothing has announced it before.`,
          because: 'A caution helps before the act, not after it.',
          source: hazard.source,
          advice: `Write "caution ${name}" in this step, in one before it, or at the top of the procedure.`,
          related: [{ message: `what "${name}" is and what protects`, range: hazard.range }],
          mends: () => announced(name, step, work),
          step: number,
          where: whereAtStep(work, number, all),
        };
      }
    }
  },
};

function announced(hazard: string, step: Step, { procedure }: Work): readonly Mend[] {
  const clause = `caution ${hazard}`;
  const [inStep, atTop] = [addFirst(step, clause), addToProcedure(procedure, clause)];
  return [
    ...(inStep === undefined ? [] : [{ title: `Add ${clause} to this step`, edits: [inStep] }]),
    ...(atTop === undefined ? [] : [{ title: `Add ${clause} at the top of the procedure`, edits: [atTop] }]),
  ];
}
