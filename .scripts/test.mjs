// Installs, builds and runs all tests. `npm test -- PATH…` runs some of them. Ends with "N passed, N failed".
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from './build.mjs';
import { root, tryRun } from './steps.mjs';

await build();
const lint = tryRun('biome', ['check', '--config-path=.biome.json', '.']);
const report = join(root, 'out', 'test-report.json');
mkdirSync(join(root, 'out'), { recursive: true });
rmSync(report, { force: true });
const vitest = tryRun('vitest', [
  'run',
  '--config',
  'tests/vitest.config.ts',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
  ...process.argv.slice(2),
]);
const { passed, failed } = counted(report);
console.log(`${passed + (lint === 0 ? 1 : 0)} passed, ${failed + (lint === 0 ? 0 : 1)} failed`);
process.exitCode = lint === 0 && vitest === 0 && failed === 0 && passed > 0 ? 0 : 1;

/** What the runner reports; a runner that left no report has failed. */
function counted(file) {
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(file, 'utf8'));
    return { passed: numPassedTests, failed: numFailedTests };
  } catch {
    return { passed: 0, failed: 1 };
  }
}
