import type { Caution, Procedure, SignalWord, Step, Vocabulary } from '@quarrel/model';
import type { ChecklistCaution, ChecklistSource, ChecklistStep, WearItem } from '../checklist.js';

const seriousness: readonly SignalWord[] = ['danger', 'warning', 'caution', 'notice'];

/** What to be warned of before a step: what it announces and what its acts raise, most serious first, each once. */
export function cautionsOfStep(step: Step, vocabulary: Vocabulary): readonly ChecklistCaution[] {
  const raised = step.effects.flatMap((effect) =>
    effect.kind === 'act' ? (vocabulary.acts.find((act) => act.name === effect.act)?.raises ?? []) : [],
  );
  return ordered([...announced(step.cautions, vocabulary), ...raised.flatMap((name) => hazard(name, vocabulary))]);
}

/** What holds throughout a procedure. */
export function cautionsThroughout(procedure: Procedure): readonly ChecklistCaution[] {
  return ordered(announced(procedure.cautions, procedure.vocabulary));
}

/** What the hazards of a job ask to wear, each once, in the order of the job. */
export function wearFor(throughout: readonly ChecklistCaution[], steps: readonly ChecklistStep[]): readonly WearItem[] {
  const worn = new Map<string, Set<string>>();
  for (const caution of [...throughout, ...steps.flatMap((step) => step.cautions)]) {
    for (const measure of caution.measures) {
      if (measure.kind === 'wear') worn.set(measure.text, (worn.get(measure.text) ?? new Set()).add(caution.label));
    }
  }
  return [...worn].map(([text, against]) => ({ text, against: [...against] }));
}

/** Where cautions come from, each once. */
export function sourcesOf(cautions: readonly ChecklistCaution[]): readonly ChecklistSource[] {
  const found = cautions.flatMap(({ label, source }) => (source === undefined ? [] : [[label, source] as const]));
  return [...new Map(found)].map(([of, source]) => ({ of, source }));
}

function announced(cautions: readonly Caution[], vocabulary: Vocabulary): readonly ChecklistCaution[] {
  return cautions.flatMap((caution) =>
    caution.kind === 'hazard'
      ? hazard(caution.hazard, vocabulary)
      : [{ signal: 'caution' as const, label: caution.text, measures: [] }],
  );
}

function hazard(name: string, vocabulary: Vocabulary): readonly ChecklistCaution[] {
  const found = vocabulary.hazards.find((one) => one.name === name);
  if (found === undefined) return [];
  const { signal, label, measures, source } = found;
  return [{ signal, label, hazard: name, measures, ...(source === undefined ? {} : { source }) }];
}

function ordered(cautions: readonly ChecklistCaution[]): readonly ChecklistCaution[] {
  const unique = new Map(cautions.map((caution) => [caution.hazard ?? `"${caution.label}`, caution]));
  return [...unique.values()].sort((a, b) => seriousness.indexOf(a.signal) - seriousness.indexOf(b.signal));
}
