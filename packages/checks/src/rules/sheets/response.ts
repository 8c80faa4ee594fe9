import type { ActRecord } from '@quarrel/analysis';
import { grounds } from '../../at-acts.js';
import type { DeclaredRule, Draft, Work } from '../../rule.js';
import { isUncertain } from '../../tests.js';
import { isSomewhere, union, whereAtStep } from '../../work.js';

/** `after A, B follows [within T]`: stands at the step that does B too late, or at the one with the A that nothing answers. */
export const response: DeclaredRule = {
  pattern: 'response',
  *run(rule, work) {
    const question = work.asked.responses.get(rule.name);
    if (rule.pattern.kind !== 'response' || question === undefined) return;
    if (rule.when !== undefined && isUncertain(rule.when)) return;
    const { trigger, response: answer, within } = rule.pattern;
    for (const draft of atSteps(work, question, 'unanswered')) {
      yield {
        ...grounds(rule),
        ...draft,
        message: `"${trigger}" is done here, and the work can end without "${answer}" after it.`,
        advice: `Let ${answer} follow on every way to the end.`,
      };
    }
    for (const draft of atSteps(work, question, 'late')) {
      yield {
        ...grounds(rule),
        ...draft,
        message: `"${answer}" can come later here than ${within?.text ?? 'in time'} after "${trigger}".`,
        advice: 'Shorten or move what stands between the two.',
      };
    }
  },
};

function* atSteps(
  work: Work,
  question: number,
  fault: 'late' | 'unanswered',
): Iterable<Pick<Draft, 'range' | 'step' | 'where'>> {
  for (const [number, step] of work.steps.entries()) {
    const faults = (work.run.steps[number]?.acts ?? [])
      .map((record) => ({ record, region: union(work, regionsOf(record, question, fault)) }))
      .filter(({ region }) => isSomewhere(work, region));
    const first = faults[0];
    if (first === undefined) continue;
    yield {
      range: (step.effects[first.record.effect] ?? step).range,
      step: number,
      where: whereAtStep(work, number, faults),
    };
  }
}

function regionsOf(record: ActRecord, question: number, fault: 'late' | 'unanswered'): readonly ActRecord['reached'][] {
  return record[fault].filter(({ response: number }) => number === question).map(({ region }) => region);
}
