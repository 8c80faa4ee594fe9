import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests in a real VS Code. One at a time: they share the editor, and the machine has other work. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['tests/editor/**/*.editor.ts'],
    globalSetup: 'tests/editor/setup/global.ts',
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // A browser drops a key now and then when the machine is busy: a test has failed when it fails in two fresh windows. What the
    // first attempt said is printed all the same.
    retry: 1,
    maxWorkers: 1,
    fileParallelism: false,
  },
});
