import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { servedTexts } from '../../.scripts/text-modules.mjs';

/** Benchmarks print tables of ratios; they are not tests, because machines are noisy. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  plugins: [servedTexts],
  test: { include: ['tests/speed/*.speed.ts'], testTimeout: 600_000, maxWorkers: 1, fileParallelism: false },
});
