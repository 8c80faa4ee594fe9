import type { Coverage, Holds, Pictured, Timeline } from '@quarrel/pictures';
import { examplesIn } from '../pictures/examples.js';
import type { Show } from './answers.js';

/** The first procedure of an example. */
export async function exampleIn(path: string): Promise<Pictured> {
  const [first] = await examplesIn(path);
  if (first === undefined) throw new Error(`${path} has no procedure`);
  return first;
}

export function timelineIn({ answer }: Show): Timeline {
  if (answer.kind !== 'timeline') throw new Error(`the answer is ${answer.kind}`);
  return answer.timeline;
}

export function coverageIn({ answer }: Show): Coverage {
  if (answer.kind !== 'coverage') throw new Error(`the answer is ${answer.kind}`);
  return answer.coverage;
}

export function holdsIn({ answer }: Show): Holds {
  if (answer.kind !== 'holds') throw new Error(`the answer is ${answer.kind}`);
  return answer.holds;
}
