import { axesOf } from '@quarrel/analysis';
import { type Choice, type Condition, type Procedure, subjectsOf } from '@quarrel/model';
import { type Mentioned, mentionedIn } from '../conditions.js';
import { placedIn } from '../findings.js';
import type { Nothing, Picked } from '../picked.js';
import { picksOf } from '../picks.js';
import type { Ground, Pictured } from '../pictured.js';
import { completed, declinedShown, type Kept, keepPossible } from '../situation.js';
import { nothingCovered, tooTangled } from '../wording.js';
import type { Aspect, Coverage, CoverageQuestion } from './coverage.js';
import { gridOf } from './grid.js';
import { lookingAt } from './looks.js';
import { tellChoice, tellFindings, tellTime } from './outcomes.js';

export type CoverageOf = { readonly kind: 'coverage'; readonly coverage: Coverage } | Nothing;

/** What comes out of a procedure over two of its conditions, cell by cell, with the same neighbours as one region. */
export function coverageOf(pictured: Pictured, question: CoverageQuestion): CoverageOf {
  const { procedure, interpretation } = pictured;
  if (interpretation.kind === 'too-tangled') return tooTangled(procedure, interpretation.conditions);
  const { run } = interpretation;
  if (run.covered === run.situations.store.nowhere) return nothingCovered(procedure);
  const mentioned = mentionedIn(procedure);
  const { by, choice } = aspectOf(question, procedure);
  const axes = axesFor(question, inOrderFor(choice, by, mentioned));
  const fixed = keepPossible(run, without(question.fixed, axes));
  const placed = placedIn(pictured);
  const asked = placed.flatMap(({ where }) => (where === undefined ? [] : [where]));
  const telling =
    by === 'time' ? tellTime : by === 'findings' ? tellFindings(placed) : tellChoice(procedure, choice?.name ?? '');
  const cut = axesOf(procedure, by === 'findings' ? asked : []);
  const sides = axes.map((condition) => ({ condition, axis: cut.find(({ name }) => name === condition.name) }));
  const looking = lookingAt(procedure, run, asked);
  const grid = gridOf({ procedure, run, fixed, sides, looking, telling });
  if (grid === undefined) return tooTangled(procedure, []);
  const conditions = mentioned.map(({ condition }) => condition);
  return {
    kind: 'coverage',
    coverage: {
      procedure: { name: procedure.name, label: procedure.label, range: procedure.range },
      by,
      ...(choice === undefined ? {} : { choice: { name: choice.name, label: choice.label } }),
      choices: procedure.choices.map(({ name, label }) => ({ name, label })),
      axes: conditions.map(({ name, label }) => ({ name, label })),
      ...grid,
      others: othersIn(mentioned, axes, fixed, run),
      declined: declinedShown(fixed.declined, question.fixed, conditions),
    },
  };
}

/** What a choice asks about comes first where it is what is shown. */
function inOrderFor(choice: Choice | undefined, by: Aspect, mentioned: readonly Mentioned[]): readonly Mentioned[] {
  const asked = by === 'choice' ? (choice?.cases ?? []).flatMap(({ test }) => subjectsOf(test)) : [];
  const place = ({ condition }: Mentioned): number =>
    asked.includes(condition.name) ? asked.indexOf(condition.name) : asked.length;
  return [...mentioned].sort((a, b) => place(a) - place(b));
}

/** The conditions laid out: the first goes across, the second down. */
function axesFor({ across, down }: CoverageQuestion, mentioned: readonly Mentioned[]): readonly Condition[] {
  const find = (name: string | undefined): Condition | undefined =>
    mentioned.find(({ condition }) => condition.name === name)?.condition;
  const next = (other: Condition | undefined): Condition | undefined =>
    mentioned.find(({ condition }) => condition !== other)?.condition;
  const asked = find(down);
  const first = find(across) ?? next(asked);
  const second = asked === first ? next(first) : (asked ?? next(first));
  return [first, second].filter((condition) => condition !== undefined);
}

function without(picked: Picked, axes: readonly Condition[]): Picked {
  return Object.fromEntries(Object.entries(picked).filter(([name]) => axes.every((axis) => axis.name !== name)));
}

/** What is asked for, as far as the procedure has it: without a choice the time tells most. */
function aspectOf(
  { by, choose }: CoverageQuestion,
  { choices }: Procedure,
): { readonly by: Aspect; readonly choice?: Choice } {
  const choice = choices.find(({ name }) => name === choose) ?? choices[0];
  if (choice === undefined) return { by: by === 'findings' ? by : 'time' };
  return { by: by ?? 'choice', choice };
}

function othersIn(
  mentioned: readonly Mentioned[],
  axes: readonly Condition[],
  fixed: Kept,
  ground: Ground,
): Coverage['others'] {
  const scenario = completed(ground.situations, fixed) ?? {};
  const others = mentioned.filter(
    ({ condition, decides }) => !axes.includes(condition) && (decides || condition.name in fixed.picked),
  );
  return picksOf(others, ground, scenario).map((pick) => ({ pick, fixed: pick.name in fixed.picked }));
}
