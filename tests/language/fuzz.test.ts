import { parseTest } from '@quarrel/language';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readOne } from './reading.js';

const words = (
  'use observation reading state hazard act rule tool resin lamp injector consumable limits procedure example variation step stage ' +
  'when otherwise repeat until stop do with takes hold observe read accept check caution note photo meanwhile waive because source ' +
  'needs makes raises as severity error comes before after follows within no at the end of least most covers choose amount is not ' +
  'and or always below above from to in instead omit suppose uses has lacks lasts stops wear danger warning revision allows ' +
  'confirms else times under { } ( ) , ; : < > <= >= break star bullseye t p x y 5 -3 15 2.5 1,5 °C s min mm % drops "text" "open ' +
  '“curly” /* */ // /** § @ _ \\ \n'
).split(' ');

const soup = fc.array(fc.constantFrom(...words, '\n'), { maxLength: 120 }).map((list) => list.join(' '));

describe('token soup', () => {
  test('reads to a sheet whatever it says, in bounds, and every problem stands in the text', async () => {
    await fc.assert(
      fc.asyncProperty(soup, async (text) => {
        const { problems } = await readOne(text);
        const lines = text.split('\n');
        for (const { range } of problems) {
          expect(range.start.line).toBeLessThan(lines.length);
          expect(range.end.line).toBeLessThan(lines.length);
          expect(range.start.column).toBeLessThanOrEqual(lines[range.start.line]?.length ?? 0);
          expect(range.end.line * 1e6 + range.end.column).toBeGreaterThanOrEqual(
            range.start.line * 1e6 + range.start.column,
          );
        }
      }),
      { numRuns: 400 },
    );
  });

  test('inside a procedure as well', async () => {
    await fc.assert(
      fc.asyncProperty(soup, async (text) => {
        const sheet = await readOne(
          `observation break: star, bullseye\nreading t: 0 °C to 9 °C\nact x\nprocedure p {\n${text}\n}`,
        );
        expect(sheet.procedures.length).toBeGreaterThan(0);
      }),
      { numRuns: 400 },
    );
  });

  test('any characters at all', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 200 }), async (text) => {
        expect((await readOne(text)).uri).toBe('file:///shop/main.quarrel');
      }),
      { numRuns: 200 },
    );
  });

  test('as a test on the command line', () => {
    const vocabulary = {
      observations: [],
      readings: [],
      states: [],
      hazards: [],
      acts: [],
      rules: [],
      things: [],
      limits: [],
      assumptions: [],
    };
    fc.assert(
      fc.property(soup, (text) => {
        const { test: read, problems } = parseTest(text, vocabulary);
        expect(problems.length > 0 || read.kind === 'always' || /always/.test(text)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
