import type { Procedure, Scenario, Test } from '@quarrel/model';
import { outcomes } from './asking.js';

/**
 * Every situation that a procedure can tell apart, listed one by one: each value of an observation, and of a reading each
 * value that is mentioned anywhere, both ends, and one value between each two neighbours.
 */
export interface Cells {
  readonly scenarios: readonly Scenario[];
  /** Whether every line of `covers` holds there. */
  readonly covered: readonly boolean[];
  /** The covered situations that differ from this one in nothing but `condition`; itself is among them. */
  readonly reread: (cell: number, condition: string) => readonly number[];
}

export function cellsOf(procedure: Procedure): Cells {
  const axes = axesOf(procedure);
  let scenarios: Scenario[] = [{}];
  for (const [name, values] of axes) {
    scenarios = scenarios.flatMap((scenario) => values.map((value) => ({ ...scenario, [name]: value })));
  }
  const covered = scenarios.map((scenario) => procedure.covers.every((line) => covers(line, scenario)));
  const numbers = new Map(scenarios.map((scenario, index) => [nameOf(scenario), index]));
  const known = new Map<string, readonly number[]>();
  const reread = (cell: number, condition: string): readonly number[] => {
    const key = `${cell} ${condition}`;
    const found =
      known.get(key) ??
      (axes.get(condition) ?? [])
        .map((value) => numbers.get(nameOf({ ...scenarios[cell], [condition]: value })) ?? -1)
        .filter((other) => covered[other] === true);
    known.set(key, found);
    return found;
  };
  return { scenarios, covered, reread };
}

/** A line of `covers` with a part that cannot be read leaves nothing out. */
function covers(line: Test, scenario: Scenario): boolean {
  return outcomes(line, (subject) => scenario[subject]).includes(true);
}

function nameOf(scenario: Scenario): string {
  return Object.values(scenario).join(' ');
}

function axesOf(procedure: Procedure): Map<string, readonly (string | number)[]> {
  const axes = new Map<string, readonly (string | number)[]>();
  for (const { name, values } of procedure.vocabulary.observations) {
    axes.set(
      name,
      values.map((value) => value.name),
    );
  }
  for (const { name, low, high } of procedure.vocabulary.readings) {
    const inside = [...mentioned(procedure, name)].filter((value) => value >= low.si && value <= high.si);
    const points = [...new Set([low.si, ...inside, high.si])].sort((a, b) => a - b);
    axes.set(
      name,
      points.flatMap((point, index) => {
        const next = points[index + 1];
        return next === undefined ? [point] : [point, (point + next) / 2];
      }),
    );
  }
  return axes;
}

/** Every value that `reading` is held against anywhere in `part`, in whatever test or accepted span. */
function mentioned(part: unknown, reading: string): Set<number> {
  const found = new Set<number>();
  const quantity = (value: unknown): void => {
    if (isRecord(value) && typeof value.si === 'number') found.add(value.si);
  };
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(visit);
    if (!isRecord(value)) return;
    if (value.subject === reading) for (const end of ['quantity', 'low', 'high']) quantity(value[end]);
    if (value.kind === 'read' && value.condition === reading && isRecord(value.accept)) {
      const span = value.accept.span;
      if (isRecord(span)) for (const end of ['least', 'most']) quantity(span[end]);
    }
    Object.values(value).forEach(visit);
  };
  visit(part);
  return found;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
