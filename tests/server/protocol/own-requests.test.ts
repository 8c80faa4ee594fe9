import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  type ChecklistAnswer,
  type CoverageAnswer,
  type HoldsAnswer,
  methods,
  type TimelineAnswer,
} from '@quarrel/server/protocol';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Client, started } from './client.js';

const school = fileURLToPath(new URL('../../../examples/school', import.meta.url));
const uri = pathToFileURL(`${school}/stone-chip.quarrel`).href;
const text = readFileSync(`${school}/stone-chip.quarrel`, 'utf8');
let client: Client;

beforeAll(async () => {
  client = await started({ folders: [school] });
  client.open(uri, text);
  await client.settled();
});
afterAll(() => client.end());

const ask = <Answer>(method: string, params: object): Promise<Answer> =>
  client.connection.sendRequest<Answer>(method, { uri, ...params });

test('the timeline is of the situation that is picked', async () => {
  const answer = await ask<TimelineAnswer>(methods.timeline, { picked: { break: 'star' } });
  if (answer.kind !== 'timeline') throw new Error(answer.reason);
  expect(answer.timeline.procedure.name).toBe('stone-chip');
  expect(answer.timeline.situation.suppose).toContain('break is star');
});

test('the coverage lays out the conditions that are asked for', async () => {
  const question = { across: 'break', down: 'glass-temperature', by: 'choice', choose: 'fill', fixed: {} };
  const answer = await ask<CoverageAnswer>(methods.coverage, { question });
  if (answer.kind !== 'coverage') throw new Error(answer.reason);
  expect(answer.coverage).toMatchObject({ across: { name: 'break' }, down: { name: 'glass-temperature' } });
});

test('holds are told beside what resin needs', async () => {
  const answer = await ask<HoldsAnswer>(methods.holds, { question: {} });
  if (answer.kind !== 'holds') throw new Error(answer.reason);
  expect(answer.holds.procedure.name).toBe('stone-chip');
});

test('the checklist is of what is supposed, and says why there is none', async () => {
  const star = await ask<ChecklistAnswer>(methods.checklist, { suppose: ['break is star'], format: 'md' });
  expect(star).toMatchObject({ kind: 'checklist', procedure: 'stone-chip', draft: false });
  const crack = await ask<ChecklistAnswer>(methods.checklist, { suppose: ['break is long-crack'], format: 'md' });
  expect(crack).toEqual({
    kind: 'nothing',
    reason: 'Stone-chip repair covers no situation in which break is long-crack.',
  });
});

test('a picture is of the text as it is being written', async () => {
  const line = text.slice(0, text.indexOf('hold 15 s to 30 s')).split('\n').length - 1;
  await client.checkedAfter(() => client.write(uri, text.replace('hold 15 s to 30 s', 'hold 15 s to 31 min')));
  const answer = await ask<TimelineAnswer>(methods.timeline, { line, picked: {} });
  if (answer.kind !== 'timeline') throw new Error(answer.reason);
  expect(answer.timeline.total?.most).toBeGreaterThan(31 * 60);
  await client.checkedAfter(() => client.write(uri, text));
});

test.each([
  ['of a sheet that is not known', { uri: 'file:///nowhere/x.quarrel' }, 'This sheet is not known.'],
  ['of a procedure that is not there', { procedure: 'gone' }, 'There is no procedure "gone" in this sheet any more.'],
  [
    'of a sheet without a procedure',
    { uri: pathToFileURL(`${school}/equipment.quarrel`).href },
    'There is no procedure in this sheet.',
  ],
])('there is nothing to show %s, and it is said why', async (_, params, reason) => {
  expect(await ask(methods.timeline, { picked: {}, ...params })).toEqual({ kind: 'nothing', reason });
});
