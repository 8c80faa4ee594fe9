import type { Flow } from '@quarrel/model';
import type { Mend } from '../../finding.js';
import { addBefore, lookWritten } from '../../mends/parts.js';
import { conditionNamed } from '../../mends/text.js';
import type { Draft, FlowRule, Work } from '../../rule.js';
import { partAsking } from '../../tests.js';
import { isSomewhere } from '../../work.js';

/** A test on a condition that no step has observed or read yet. */
export const unreadCondition: FlowRule = {
  name: 'unread-condition',
  family: 'flow',
  severity: 'error',
  title: 'A test asks about something that no step has observed or read yet',
  *run(work) {
    yield* inWhens(work);
    yield* inChoices(work);
  },
};

/** Once for each condition and `when`: the first case that asks is at fault for those behind it. */
function* inWhens(work: Work): Iterable<Draft> {
  for (const { part, firstCase, before } of work.layout.whens) {
    const reported = new Set<string>();
    for (const [index, one] of part.cases.entries()) {
      const record = work.run.cases[firstCase + index];
      for (const { condition, region } of record?.unknown ?? []) {
        if (record === undefined || reported.has(condition) || !isSomewhere(work, region)) continue;
        reported.add(condition);
        yield {
          range: (partAsking(one.test, condition) ?? one.test).range,
          message: `This asks about ${condition}, but no step on the way has ${foundOut(work, condition)} it yet.`,
          because: 'Whoever does the job has not been told to look, and would guess.',
          advice: `Let a step before this one ${toFindOut(work, condition)} ${condition}.`,
          mends: () => foundOutBefore(part, condition, work),
          where: { region, reached: record.asked, before },
        };
      }
    }
  }
}

function* inChoices(work: Work): Iterable<Draft> {
  const { procedure, run } = work;
  for (const [number, step] of work.steps.entries()) {
    const reported = new Set<string>();
    for (const thing of run.steps[number]?.things ?? []) {
      const effect = step.effects[thing.effect];
      const choice = thing.choice === undefined ? undefined : procedure.choices[thing.choice.choice];
      if (effect === undefined || choice === undefined) continue;
      for (const { condition, region } of thing.choice?.unknown ?? []) {
        if (reported.has(condition) || !isSomewhere(work, region)) continue;
        reported.add(condition);
        const asking = choice.cases.map((one) => partAsking(one.test, condition)).find((part) => part !== undefined);
        yield {
          range: effect.range,
          message: `"${choice.name}" depends on ${condition}, but no step on the way has ${foundOut(work, condition)} it yet.`,
          because: 'Whoever does the job has not been told to look, and would guess what to take.',
          advice: `Let a step before this one ${toFindOut(work, condition)} ${condition}.`,
          related: [{ message: `"${choice.name}" asks for it here`, range: (asking ?? choice).range }],
          mends: () => foundOutBefore(step, condition, work),
          step: number,
          where: { region, reached: thing.reached, before: number },
        };
      }
    }
  }
}

function foundOut(work: Work, condition: string): string {
  return conditionNamed(work.procedure.vocabulary, condition)?.kind === 'reading' ? 'read' : 'observed';
}

function toFindOut(work: Work, condition: string): string {
  return conditionNamed(work.procedure.vocabulary, condition)?.kind === 'reading' ? 'read' : 'observe';
}

function foundOutBefore(part: Flow, condition: string, work: Work): readonly Mend[] {
  const declared = conditionNamed(work.procedure.vocabulary, condition);
  const edit = declared === undefined ? undefined : addBefore(part, work.layout, lookWritten(declared));
  if (edit === undefined) return [];
  return [{ title: `Add a step before it that ${toFindOut(work, condition)}s ${condition}`, edits: [edit] }];
}
