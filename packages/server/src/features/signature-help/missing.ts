import { ast } from '@quarrel/language';
import type { Act, Test } from '@quarrel/model';
import { type Asked, declared } from '../completion/asked.js';
import { clausesOf, madeBy, namesIn } from '../completion/clauses.js';
import { mayHoldAt, needWords, readinessAt } from '../completion/readiness.js';
import { code, either, plain } from '../hover/markdown.js';

/** A clause that a step lacks, and who asks for it. */
export interface Missing {
  readonly clause: string;
  readonly why: string;
}

/** What the acts of the step around the cursor ask for and it does not have, as far as the last run tells. */
export function missingIn(asked: Asked): readonly Missing[] {
  const acts = namesIn(clausesOf(asked), 'do');
  return [...cautions(acts, asked), ...needs(acts, asked), ...holds(acts, asked), ...times(acts, asked)];
}

/** Hazards that are raised here and that nothing announces before. */
function cautions(acts: readonly string[], asked: Asked): readonly Missing[] {
  const here = new Set(namesIn(clausesOf(asked), 'caution'));
  const raised = acts.flatMap((name) => {
    const act = declared(asked, 'act', name);
    return ast.isAct(act) ? act.raises.map(({ $refText }) => ({ act: name, hazard: $refText })) : [];
  });
  const open = raised.filter(({ act, hazard }) => !here.has(hazard) && isOpen(act, hazard, asked));
  return [...new Map(open.map((one) => [one.hazard, one])).values()].map(({ act, hazard }) => ({
    clause: `caution ${hazard}`,
    why: `${code(act)} raises it, and nothing has announced it before`,
  }));
}

/** Whether some run has not announced a hazard as it comes to an act. Of an act that no run has seen, the words above tell. */
function isOpen(act: string, hazard: string, { known, step }: Asked): boolean {
  if (known === undefined || step === undefined) return false;
  const { run, report, steps } = known;
  const number = steps.indexOf(step);
  const record = run?.steps[number]?.acts.find((one) => one.act === act);
  if (run !== undefined && record !== undefined) {
    return record.unannounced.some((one) => one.hazard === hazard && one.region !== run.situations.store.nowhere);
  }
  const above = [report.procedure, ...steps.slice(0, number)].flatMap(({ cautions }) => cautions);
  return !above.some((caution) => caution.kind === 'hazard' && caution.hazard === hazard);
}

/** Acts to be done before, where what an act needs is not so. */
function needs(acts: readonly string[], asked: Asked): readonly Missing[] {
  return acts.flatMap((name, at) => {
    const readiness = readinessAt(asked, madeBy(acts.slice(0, at), asked))?.(name);
    if (readiness?.need === undefined) return [];
    const makers = makersOf(readiness.need, name, asked);
    const where = readiness.rank === 1 ? 'in some situations' : 'here';
    const why = `${code(name)} needs ${plain(needWords(readiness.need))}, which is not so ${where}`;
    return [
      makers.length > 0
        ? {
            clause: `do ${makers[0]}`,
            why: `${why}; ${either(makers.slice(0, 3).map(code))} makes it so, before this step`,
          }
        : { clause: 'check "…" confirms …', why },
    ];
  });
}

/** The acts that make some part of a test so. */
function makersOf(test: Test, act: string, { known }: Asked): readonly string[] {
  const acts: readonly Act[] = known?.report.procedure.vocabulary.acts ?? [];
  const parts = test.kind === 'and' || test.kind === 'or' ? test.tests : [test];
  return acts
    .filter(({ name, makes }) =>
      parts.some(
        (part) =>
          name !== act &&
          part.kind === 'is' &&
          makes.some(({ state, value }) => state === part.subject && part.values.includes(value) !== part.negated),
      ),
    )
    .map(({ name }) => name);
}

/** Holds that rules ask for in situations that come here, where the step has none. */
function holds(acts: readonly string[], asked: Asked): readonly Missing[] {
  if (clausesOf(asked).some(({ tokens }) => tokens[0]?.image === 'hold')) return [];
  return (asked.known?.report.procedure.vocabulary.rules ?? []).flatMap(({ name, pattern, when }) => {
    if (pattern.kind !== 'hold' || pattern.bound !== 'at-least' || !acts.includes(pattern.act)) return [];
    if (when !== undefined && !mayHoldAt(asked, when)) return [];
    return [{ clause: `hold at least ${pattern.quantity.text}`, why: `the rule ${code(name)} asks for it` }];
  });
}

/** The time that is the work's own, where a step does something and says nothing of how long. */
function times(acts: readonly string[], asked: Asked): readonly Missing[] {
  const isTimed = clausesOf(asked).some(({ tokens }) => /^(takes|hold)$/.test(tokens[0]?.image ?? ''));
  return acts.length === 0 || isTimed ? [] : [{ clause: 'takes …', why: 'without it the step counts for no time' }];
}
