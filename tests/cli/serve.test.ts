import { expect, test } from 'vitest';
import { world } from './world.js';

test.each([
  { argv: ['serve', '--stdio'] },
  // As clients add it that start a server with their own process to watch.
  { argv: ['serve', '--stdio', '--clientProcessId=1'] },
  { argv: ['serve', '--stdio', '--clientProcessId', '1'] },
])('$argv starts the server and says nothing itself', async ({ argv }) => {
  const here = world({});
  expect(await here.quarrel(...argv)).toEqual({ code: 0, out: '', err: '' });
  expect(here.served()).toBe(1);
});
