import type { ActRecord } from '@quarrel/analysis';
import type { Pattern, SourceRange, Span } from '@quarrel/model';
import { grounds } from '../../at-acts.js';
import type { Mend } from '../../finding.js';
import { mendByDoing } from '../../mends/make.js';
import { actNamed } from '../../mends/makers.js';
import { addBehind, type Written } from '../../mends/parts.js';
import { foundOutIn } from '../../mends/situations.js';
import type { DeclaredRule, Where, Work } from '../../rule.js';
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
      const { range, step, where } = draft;
      yield {
        ...grounds(rule),
        range,
        step,
        where,
        message: `"${trigger}" is done here, and the work can end without "${answer}" after it.`,
        advice: `Let ${answer} follow on every way to the end.`,
        mends: () => answered(rule.pattern, draft, work),
      };
    }
    for (const { range, step, where } of atSteps(work, question, 'late')) {
      yield {
        ...grounds(rule),
        range,
        step,
        where,
        message: `"${answer}" can come later here than ${within?.text ?? 'in time'} after "${trigger}".`,
        advice: 'Shorten or move what stands between the two.',
      };
    }
  },
};

/** A step at fault. */
interface Fault {
  readonly range: SourceRange;
  readonly step: number;
  /** The index of its first effect at fault. */
  readonly first: number;
  readonly where: Where;
}

function* atSteps(work: Work, question: number, fault: 'late' | 'unanswered'): Iterable<Fault> {
  for (const [number, step] of work.steps.entries()) {
    const faults = (work.run.steps[number]?.acts ?? [])
      .map((record) => ({ record, region: union(work, regionsOf(record, question, fault)) }))
      .filter(({ region }) => isSomewhere(work, region));
    const first = faults[0];
    if (first === undefined) continue;
    yield {
      range: (step.effects[first.record.effect] ?? step).range,
      step: number,
      first: first.record.effect,
      where: whereAtStep(work, number, faults),
    };
  }
}

function regionsOf(record: ActRecord, question: number, fault: 'late' | 'unanswered'): readonly ActRecord['reached'][] {
  return record[fault].filter(({ response: number }) => number === question).map(({ region }) => region);
}

/** A step with the answer right behind, where that is in time; an act that follows on itself would be owed once more. */
function answered(pattern: Pattern, { step: number, first, where }: Fault, work: Work): readonly Mend[] {
  const [step, moment] = [work.steps[number], work.run.steps[number]?.after];
  if (pattern.kind !== 'response' || step === undefined || moment === undefined) return [];
  const act = actNamed(pattern.response, work);
  const most = Math.max(mostOf(step.hold), work.run.steps[number]?.meanwhile?.most ?? 0) + mostOf(step.takes);
  if (
    act === undefined ||
    pattern.trigger === pattern.response ||
    most > (pattern.within?.si ?? Number.POSITIVE_INFINITY)
  )
    return [];
  const spot = {
    words: 'behind this step',
    moment,
    changing: foundOutIn(step, first, step.effects.length),
    put: (written: Written) => addBehind(step, work.layout, written),
  };
  return mendByDoing(act, where.region, spot, work);
}

/** In seconds; a span without a most has no end. */
function mostOf(span: Span | undefined): number {
  return span === undefined ? 0 : (span.most?.si ?? Number.POSITIVE_INFINITY);
}
