import type { Procedure } from '@quarrel/model';
import type { Silence } from '../rule.js';
import { actsDuring, assumedLines, glassReading } from './assumed.js';

/** Nobody says which reading is the temperature of the glass. */
export function noGlassReading(procedure: Procedure): readonly Silence[] {
  if (glassReading(procedure) !== undefined) return [];
  return [
    {
      message: 'No sheet says which reading is the temperature of the glass.',
      wakes: 'assume glass { temperature READING }',
    },
  ];
}

/** Nobody says during which acts something happens. */
export function noActs(procedure: Procedure, topic: string): readonly Silence[] {
  if (actsDuring(procedure, topic).size > 0) return [];
  return [{ message: `No sheet says which acts are ${topic}.`, wakes: `assume ${topic} { during ACT }` }];
}

/** Nobody assumes a value. */
export function nothingAssumed(procedure: Procedure, topic: string, example: string): readonly Silence[] {
  const [property = ''] = example.split(' ');
  if (assumedLines(procedure, topic, property).length > 0) return [];
  return [{ message: `No sheet assumes the ${property} of ${topic}.`, wakes: `assume ${topic} { ${example} }` }];
}
