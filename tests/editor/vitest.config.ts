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
    maxWorkers: 1,
    fileParallelism: false,
  },
});
