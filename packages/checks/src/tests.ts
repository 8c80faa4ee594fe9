import type { Test } from '@quarrel/model';

/**
 * Whether some part of the test could not be read, or stands backwards. A finding says so already; what follows from it is not
 * reported again.
 */
export function isUncertain(test: Test): boolean {
  return partsOf(test).some(
    (part) => part.kind === 'unknown' || (part.kind === 'between' && part.low.si > part.high.si),
  );
}

/** The first part of a test that asks about `subject`. */
export function partAsking(test: Test, subject: string): Test | undefined {
  return partsOf(test).find((part) => 'subject' in part && part.subject === subject);
}

/** Every part of a test, outer before inner. */
export function partsOf(test: Test): readonly Test[] {
  switch (test.kind) {
    case 'not':
      return [test, ...partsOf(test.test)];
    case 'and':
    case 'or':
      return [test, ...test.tests.flatMap(partsOf)];
    default:
      return [test];
  }
}
