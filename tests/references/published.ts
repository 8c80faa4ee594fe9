import type { Answer } from '@quarrel/process';
import { describe, expect, test } from 'vitest';

/** How far a computed value may be from the published one, and why so far and no further. */
export interface Tolerance {
  readonly by: 'share' | 'amount';
  readonly size: number;
  readonly why: string;
}

/** One value that somebody published, or that was worked out apart from this code, and what we compute for it. */
export interface Published {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly computed: () => number | Answer<number>;
  readonly tolerance: Tolerance;
  readonly source: string;
}

/** `share(0.001, 'Sonntag')`: 0.1 % of the published value. */
export function share(size: number, why: string): Tolerance {
  return { by: 'share', size, why };
}

/** In the unit of the published value. */
export function amount(size: number, why: string): Tolerance {
  return { by: 'amount', size, why };
}

/** Half of the last digit that was printed. */
export function printed(lastDigit: number): Tolerance {
  return amount(0.5000001 * lastDigit, 'half of the last digit printed');
}

/** Floating-point arithmetic of an exact value. */
export const exact: Tolerance = share(1e-9, 'exact; the arithmetic keeps twelve digits');

/** One test a row; its name says the value, the tolerance, why, and where the value is from. */
export function compare(subject: string, rows: readonly Published[]): void {
  describe(subject, () => {
    test.each(rows.map((row) => [nameOf(row), row] as const))('%s', (_, { value, computed, tolerance }) => {
      const answer = computed();
      const number = typeof answer === 'number' ? answer : known(answer);
      const allowed = tolerance.by === 'share' ? Math.abs(value) * tolerance.size : tolerance.size;
      expect(number).toBeGreaterThanOrEqual(value - allowed);
      expect(number).toBeLessThanOrEqual(value + allowed);
    });
  });
}

function nameOf({ what, value, unit, tolerance, source }: Published): string {
  const size =
    tolerance.by === 'share' ? `${Number((tolerance.size * 100).toPrecision(3))} %` : `${tolerance.size} ${unit}`;
  return `${what}: ${value} ${unit} ± ${size} (${tolerance.why}) [${source}]`;
}

/** The value of an answer that has one. */
export function known<T>(answer: Answer<T>): T {
  if (answer.kind !== 'value') throw new Error(`no value: ${JSON.stringify(answer)}`);
  return answer.value;
}
